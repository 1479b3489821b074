/// Files and folders that are to be gone when the program ends, also where a signal ends it.
#pragma once

#include <csignal>
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

/// While it lives this thread is not interrupted by INT, TERM or HUP: they come when it ends.
class SignalsHeld {
 public:
  SignalsHeld();
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;
  ~SignalsHeld();

 private:
  sigset_t before_;
};

/// From now on INT, TERM and HUP remove what is temporary before they end the program as they always do. A signal that
/// is ignored stays so.
void removeTemporariesOnSignals();

}  // namespace sillwright::base
