#pragma once

#include <span>
#include <string>

#include "panslate/speech/transcriber.h"

namespace panslate {

/// How likely each word is after the two before it, counted in sentences: a trigram model with absolute
/// discounting (Ney, Essen and Kneser, 1994), in the ARPA form that recognisers read. Empty sentences are
/// passed over; empty text when there is no other.
[[nodiscard]] std::string arpa_model(std::span<const Sentence> sentences);

}  // namespace panslate
