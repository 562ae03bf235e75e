#include "panslate/deliver/output_folder.h"

namespace panslate {

namespace {

constexpr std::string_view kOtherFolder = "choose another folder with --out";

// A file with our mark is a result to be renewed, one without it is hers.
Result<bool> must_be_written(const FileSystem& disk, const std::filesystem::path& target,
                             const OutputFile& file, Replace replace) {
  if (file.own_mark.empty() && file.as_left && disk.exists(target) && !disk.is_directory(target)) {
    PANSLATE_TRY(const auto present, disk.read(target, kTextFileLimit));
    if (file.as_left(present)) return present != file.bytes;
  }
  if (file.own_mark.empty())
    return panslate::must_be_written(disk, target, file.bytes, replace, std::string(kOtherFolder));
  // With leave to replace, only a folder is in the way; whose file it is tells its mark.
  PANSLATE_TRY(const bool differs, panslate::must_be_written(disk, target, file.bytes, Replace::WhenAsked,
                                                             std::string(kOtherFolder)));
  if (!differs || !disk.exists(target)) return differs;
  PANSLATE_TRY(const auto present, disk.read(target, kTextFileLimit));
  if (present.find(file.own_mark) != std::string::npos) return true;
  return fail(ErrorCode::Exists, "this file was not made by panslate, so it is not replaced", Place{target},
              "move it away, or " + std::string(kOtherFolder));
}

}  // namespace

Result<bool> must_be_written(const FileSystem& disk, const std::filesystem::path& target,
                             std::string_view bytes, Replace replace, const std::string& other_way) {
  if (!disk.exists(target)) return true;
  if (disk.is_directory(target))
    return fail(ErrorCode::Exists, "a folder stands where this file would be saved", Place{target},
                other_way);
  PANSLATE_TRY(const auto present, disk.read(target, kTextFileLimit));
  if (present == bytes) return false;
  if (replace == Replace::WhenAsked) return true;
  return fail(ErrorCode::Exists, "this file is there already, and may have been changed since", Place{target},
              "add --overwrite to replace it, or " + other_way);
}

Status save_outputs(FileSystem& disk, const std::filesystem::path& directory,
                    const std::vector<OutputFile>& files, Replace replace) {
  if (disk.exists(directory) && !disk.is_directory(directory))
    return fail(ErrorCode::Exists, "this is a file, a folder is needed", Place{directory},
                "choose another folder with --out");
  std::vector<const OutputFile*> to_write;
  for (const auto& file : files) {
    PANSLATE_TRY(const bool differs, must_be_written(disk, directory / file.name, file, replace));
    if (differs) to_write.push_back(&file);
  }
  PANSLATE_CHECK(disk.create_directories(directory));
  for (const auto* file : to_write)
    PANSLATE_CHECK(save_atomically(disk, directory / file->name, file->bytes));
  return {};
}

std::string path_seen_from(const std::filesystem::path& folder, const std::filesystem::path& file) {
  namespace fs = std::filesystem;
  std::error_code failed;
  const auto whole = fs::absolute(file, failed);
  // Of a folder that is not there, no more is known than its name: links are followed in what is there.
  const auto seen =
      fs::proximate(whole, fs::absolute(folder.empty() ? fs::path(".") : folder, failed), failed);
  return (failed || seen.empty() ? whole : seen).generic_string();
}

}  // namespace panslate
