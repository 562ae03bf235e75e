#pragma once

#include "panslate/speech/recogniser.h"
#include "panslate/speech/transcriber.h"

namespace panslate {

/// What the loadable module of the recogniser offers.
struct RecogniserFunctions {
  decltype(&panslate::open_recogniser) open_recogniser;
  decltype(&panslate::open_transcriber) open_transcriber;
};

}  // namespace panslate
