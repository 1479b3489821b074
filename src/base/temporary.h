/// Files and folders that are to be gone when the program ends, also where a signal ends it.
#pragma once

#include <filesystem>
#include <string>

namespace sillwright::base {

/// While it lives, a signal that ends the program takes the file, or the empty folder, with it: of several the last one
/// first. It removes nothing by itself.
class Temporary {
 public:
  explicit Temporary(const std::filesystem::path& path);
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;
  ~Temporary();

 private:
  std::string path_;
  std::size_t slot_;
};

/// While one lives the signals that removeTemporariesOnSignals takes wait, whichever thread they come to: the program
/// ends as the last of them goes.
class SignalsHeld {
 public:
  SignalsHeld();
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;
  ~SignalsHeld();
};

/// From now on INT, TERM and HUP remove what is temporary before they end the program as they always do. A signal that
/// is ignored stays so.
void removeTemporariesOnSignals();

}  // namespace sillwright::base
