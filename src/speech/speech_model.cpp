#include "panslate/speech/recogniser.h"

namespace panslate {

std::filesystem::path default_speech_model() {
  return PANSLATE_SPEECH_MODEL;
}

}  // namespace panslate
