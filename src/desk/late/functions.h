#pragma once

#include "panslate/desk/desk_server.h"

namespace panslate {

/// What the loadable module of the desk offers.
struct DeskFunctions {
  decltype(&panslate::serve_desk) serve_desk;
};

}  // namespace panslate
