#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "panslate/check/report.h"

#include "app/film.h"
#include "app/output_options.h"

namespace panslate::app {

/// The captions that were read with the words put right that were surely misheard, ready to be saved.
struct CorrectedFile {
  std::string file;  ///< empty: nobody asked for it
  std::string bytes;
  bool must_be_written = false;  ///< false where the file holds these bytes already
  std::size_t put_right = 0;
  std::vector<CaptionCorrection> left_out;  ///< sure, but not to be put in place
};

/// Makes it, and says before anything is written why it cannot be saved: Usage where there are no captions or
/// several, Exists where a file with other content stands already and --overwrite was not given.
[[nodiscard]] Result<CorrectedFile> correct(const std::string& file, const OutputOptions& output,
                                            const Film& film, const CheckReport& report,
                                            const Context& context);

/// Saves it and says how many words it puts right.
[[nodiscard]] Status save_corrected(const CorrectedFile& corrected, const OutputOptions& output,
                                    Context& context);

}  // namespace panslate::app
