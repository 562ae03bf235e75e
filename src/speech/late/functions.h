#pragma once

#include "panslate/speech/recogniser.h"

namespace panslate {

/// What the loadable module of the recogniser offers.
struct RecogniserFunctions {
  decltype(&panslate::open_recogniser) open_recogniser;
};

}  // namespace panslate
