#include "check/finding.h"

namespace sillwright::check {

const char* toWord(Severity severity) {
  switch (severity) {
    case Severity::Stop:
      return "stop";
    case Severity::Attend:
      return "attend";
    case Severity::Note:
      return "note";
  }
  return "note";
}

const char* toWord(Verdict verdict) {
  switch (verdict) {
    case Verdict::Ready:
      return "ready";
    case Verdict::Attend:
      return "attend";
    case Verdict::Unread:
      return "unread";
    case Verdict::Stop:
      return "stop";
  }
  return "unread";
}

}  // namespace sillwright::check
