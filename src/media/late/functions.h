#pragma once

#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/proxy.h"
#include "panslate/media/render.h"
#include "panslate/media/speech_sound.h"
#include "panslate/media/still.h"

namespace panslate {

/// What the loadable module of the media floor offers: the functions of its public headers.
struct MediaFunctions {
  decltype(&panslate::probe_clip) probe_clip;
  decltype(&panslate::take_still) take_still;
  decltype(&panslate::take_stills) take_stills;
  decltype(&panslate::take_sound) take_sound;
  decltype(&panslate::render_film) render_film;
  decltype(&panslate::log_clip) log_clip;
  decltype(&panslate::make_proxy) make_proxy;
};

}  // namespace panslate
