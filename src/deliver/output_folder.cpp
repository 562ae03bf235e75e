#include "panslate/deliver/output_folder.h"

namespace panslate {

namespace {

enum class Action : std::uint8_t { Leave, Write };

Result<Action> action_for(const FileSystem& disk, const std::filesystem::path& target, const OutputFile& file,
                          Replace replace) {
  if (!disk.exists(target)) return Action::Write;
  if (disk.is_directory(target))
    return fail(ErrorCode::Exists, "a folder stands where this file would be saved", Place{target},
                "choose another folder with --out");
  PANSLATE_TRY(const auto present, disk.read(target, kTextFileLimit));
  if (present == file.bytes) return Action::Leave;
  if (!file.own_mark.empty()) {
    if (present.find(file.own_mark) != std::string::npos) return Action::Write;
    return fail(ErrorCode::Exists, "this file was not made by panslate, so it is not replaced", Place{target},
                "move it away, or choose another folder with --out");
  }
  if (replace == Replace::WhenAsked) return Action::Write;
  return fail(ErrorCode::Exists, "this file is there already, and may have been changed since", Place{target},
              "add --overwrite to replace it, or choose another folder with --out");
}

}  // namespace

Status save_outputs(FileSystem& disk, const std::filesystem::path& directory,
                    const std::vector<OutputFile>& files, Replace replace) {
  if (disk.exists(directory) && !disk.is_directory(directory))
    return fail(ErrorCode::Exists, "this is a file, a folder is needed", Place{directory},
                "choose another folder with --out");
  std::vector<Action> actions;
  for (const auto& file : files) {
    PANSLATE_TRY(const auto action, action_for(disk, directory / file.name, file, replace));
    actions.push_back(action);
  }
  PANSLATE_CHECK(disk.create_directories(directory));
  for (std::size_t i = 0; i < files.size(); ++i)
    if (actions[i] == Action::Write)
      PANSLATE_CHECK(save_atomically(disk, directory / files[i].name, files[i].bytes));
  return {};
}

}  // namespace panslate
