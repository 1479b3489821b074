/// A screen to draw on: the one that is there, else one of its own in memory, for as long as this lives.
#pragma once

#include <sys/types.h>

namespace sillwright::bench {

class Display {
 public:
  Display();
  ~Display();
  Display(const Display&) = delete;
  Display& operator=(const Display&) = delete;

  [[nodiscard]] bool isThere() const { return there_; }

 private:
  bool there_ = false;
  pid_t server_ = 0;
};

}  // namespace sillwright::bench
