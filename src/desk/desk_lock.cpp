#include "panslate/desk/desk_lock.h"

#include <cerrno>
#include <system_error>

#include <fcntl.h>
#include <sys/file.h>

namespace panslate {

Result<Descriptor> lock_desk(const std::filesystem::path& project) {
  std::error_code not_there;
  if (!std::filesystem::is_regular_file(project, not_there)) return Descriptor();  // told by whoever reads it
  // A link to it is the same project.
  const auto file_itself = std::filesystem::canonical(project, not_there);
  const auto& named = not_there ? project : file_itself;
  const auto folder = named.parent_path() / ".panslate";
  std::filesystem::create_directory(folder, not_there);
  const auto name = folder / (named.stem().string() + "-desk.lock");
  // Not handed on to the browser, which may outlive the desk.
  Descriptor file(::open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0644));
  if (file.get() < 0) return file;
  while (::flock(file.get(), LOCK_EX | LOCK_NB) != 0) {
    if (errno == EWOULDBLOCK)
      return fail(ErrorCode::Exists, "this project is open at a desk already", Place{project},
                  "work on in that one, or close it first: Ctrl-C in its terminal");
    if (errno != EINTR) return Descriptor();  // a disk that knows no locks
  }
  return file;
}

}  // namespace panslate
