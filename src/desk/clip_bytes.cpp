#include "desk/clip_bytes.h"

#include <cstdint>
#include <map>
#include <memory>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>

#include "panslate/base/text.h"

#include "desk/byte_range.h"
#include "desk/guard.h"

namespace panslate {

std::string type_of_clip(const std::filesystem::path& file) {
  // QuickTime's files are MPEG-4's to a browser that plays them at all.
  static const std::map<std::string, std::string, std::less<>> kTypes{
      {".mp4", "video/mp4"},  {".m4v", "video/mp4"},  {".mov", "video/mp4"},   {".webm", "video/webm"},
      {".mkv", "video/webm"}, {".wav", "audio/wav"},  {".m4a", "audio/mp4"},   {".mp3", "audio/mpeg"},
      {".ogg", "audio/ogg"},  {".opus", "audio/ogg"}, {".flac", "audio/flac"}, {".aac", "audio/aac"},
  };
  const auto found = kTypes.find(fold_case(to_utf8(file.extension().string())));
  return found == kTypes.end() ? "application/octet-stream" : found->second;
}

DeskReply clip_bytes(const std::filesystem::path& file, std::string type, std::string_view range) {
  // Without waiting: a pipe that took the clip's name would never open.
  auto opened = std::make_shared<const Descriptor>(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  struct stat facts {};
  if (opened->get() < 0 || ::fstat(opened->get(), &facts) != 0 || !S_ISREG(facts.st_mode))
    return plain_reply(404, "The clip cannot be opened now.");
  const auto size = static_cast<std::uint64_t>(facts.st_size);
  const auto part = byte_range(range, size);
  if (part.kind == ByteRange::Kind::OutOfFile) {
    auto reply = plain_reply(416, "The clip is not so long.");
    reply.headers.emplace_back("Content-Range", "bytes */" + std::to_string(size));
    return reply;
  }
  DeskReply reply{200, std::move(type), {}, {std::move(opened), part.begin, part.length}, {}};
  reply.headers.emplace_back("Accept-Ranges", "bytes");
  if (part.kind == ByteRange::Kind::Part) {
    reply.status = 206;
    reply.headers.emplace_back("Content-Range", "bytes " + std::to_string(part.begin) + "-" +
                                                    std::to_string(part.begin + part.length - 1) + "/" +
                                                    std::to_string(size));
  }
  return reply;
}

}  // namespace panslate
