#include "app/exit_status.h"

namespace panslate::app {

ExitStatus exit_status_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::Usage:
      return ExitStatus::Usage;
    case ErrorCode::NotFound:
    case ErrorCode::Unreadable:
    case ErrorCode::Malformed:
    case ErrorCode::NotMedia:
    case ErrorCode::WriteFailed:
    case ErrorCode::Exists:
      return ExitStatus::Failed;
    case ErrorCode::Cancelled:
      return ExitStatus::Stopped;
    case ErrorCode::Internal:
      return ExitStatus::Internal;
  }
  return ExitStatus::Internal;
}

}  // namespace panslate::app
