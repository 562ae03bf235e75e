#pragma once

#include <string>

#include "panslate/check/report.h"

#include "app/film.h"
#include "app/output_options.h"

namespace panslate::app {

/// Saves the captions that were read with the words put right that were surely misheard, and says how many;
/// what a person must look at first stays as it is. Fails with Usage where there are no captions or several,
/// with Exists where a file with other content stands already and --overwrite was not given.
[[nodiscard]] Status save_corrected(const std::string& file, const OutputOptions& output, const Film& film,
                                    const CheckReport& report, Context& context);

}  // namespace panslate::app
