// Saving against what goes wrong: a process killed at any moment, a full disk, folders and files that can't be
// written. Each is done for real, in a child process where it needs one.
#include "base/write_file.h"
#include "document/recovery.h"

#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <stdexcept>

#include "job/read.h"
#include "job/support.h"
#include "job/write_toml.h"
#include "support/catch.h"
#include "support/folder.h"

namespace sillwright::document::test {

using job::test::Chance;
using job::test::load;
namespace {

namespace fs = std::filesystem;

using Folder = sillwright::tests::TemporaryFolder;

std::size_t countFiles(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// What `work` returns in a child process, where it may do what would spoil this one.
template <class Work>
std::string inChild(Work&& work) {
  int ends[2];
  REQUIRE(::pipe(ends) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const std::string said = work();
    const bool told = ::write(ends[1], said.data(), said.size()) == static_cast<ssize_t>(said.size());
    ::_exit(told ? 0 : 1);
  }
  ::close(ends[1]);
  std::string said;
  char buffer[512];
  for (ssize_t count = 0; (count = ::read(ends[0], buffer, sizeof buffer)) > 0;) {
    said.append(buffer, static_cast<std::size_t>(count));
  }
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(status == 0);
  return said;
}

/// Permissions bind everyone but root: in a child, root becomes nobody (user 65534, as Debian numbers it).
void becomeSomebody() {
  if (::geteuid() == 0 && ::setuid(65534) != 0) ::_exit(2);
}

std::string answer(const std::optional<std::string>& said) { return said.value_or("saved"); }

/// Texts of which any part of one, or a mix of two, is told from the whole.
std::string version(int number) {
  const std::string line = "line of version " + std::to_string(number) + "\n";
  std::string text;
  for (int i = 0; i < 4000; ++i) text += line;
  return text + "end " + std::to_string(number) + "\n";
}

bool isWhole(const std::string& text) {
  const auto at = text.rfind("end ");
  return at != std::string::npos && text == version(std::atoi(text.c_str() + at + 4));
}

}  // namespace

TEST_CASE("what is saved is what is read") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  CHECK(answer(base::save(path, "one\n")) == "saved");
  CHECK(load(path) == "one\n");
  CHECK(answer(base::save(path, "")) == "saved");
  CHECK(load(path).empty());
  CHECK(answer(base::save(path, version(3))) == "saved");
  CHECK(base::loadText(path).value == version(3));
  CHECK(countFiles(folder.path) == 1);
}

TEST_CASE(
    "a text that is said piece by piece is whole in the file, or what was there stays and nothing lies beside it") {
  const Folder folder;
  const fs::path path = folder.path / "a.obj";
  CHECK(base::writeFile(path, [](const base::Sink& sink) {
          for (const char* piece : {"one\n", "", "two\n"}) sink(piece);
        }).written);
  CHECK(load(path) == "one\ntwo\n");
  CHECK_THROWS(base::writeFile(path, [](const base::Sink& sink) {
    sink("half");
    throw std::runtime_error("no more of it");
  }));
  CHECK(load(path) == "one\ntwo\n");
  CHECK(countFiles(folder.path) == 1);
}

TEST_CASE("a save keeps the file's permissions and follows a link") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  const auto link = folder.path / "link.toml";
  REQUIRE(!base::save(path, "one\n"));
  fs::permissions(path, fs::perms(0640));
  fs::create_symlink("a.toml", link);
  CHECK(answer(base::save(link, "two\n")) == "saved");
  CHECK(fs::is_symlink(link));
  CHECK(load(path) == "two\n");
  CHECK(fs::status(path).permissions() == fs::perms(0640));
}

TEST_CASE("a link that leads nowhere yet is followed") {
  const Folder folder;
  fs::create_directory(folder.path / "there");
  const auto link = folder.path / "link.toml";
  fs::create_symlink("next.toml", link);
  fs::create_symlink(fs::path("there") / "new.toml", folder.path / "next.toml");
  CHECK(answer(base::save(link, "one\n")) == "saved");
  CHECK(fs::is_symlink(link));
  CHECK(load(folder.path / "there" / "new.toml") == "one\n");
}

TEST_CASE("a file that has further names is saved, and it is told that they keep the old text") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  fs::create_hard_link(path, folder.path / "b.toml");
  std::string but;
  CHECK(!base::save(path, "two\n", &but));
  CHECK(but == "its other names (hard links) keep what was there");
  CHECK(load(folder.path / "b.toml") == "one\n");
  CHECK(!base::save(path, "three\n", &but));
  CHECK(but.empty());
}

TEST_CASE("a save by root leaves a file to its owner, one by somebody else tells that it can't") {
  if (::geteuid() != 0) return;
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  REQUIRE(::chown(path.c_str(), 1234, 4321) == 0);
  std::string but;
  CHECK(!base::save(path, "two\n", &but));
  CHECK(but.empty());
  struct stat now {};
  REQUIRE(::stat(path.c_str(), &now) == 0);
  CHECK((now.st_uid == 1234 && now.st_gid == 4321));
  fs::permissions(path, fs::perms(0666));
  fs::permissions(folder.path, fs::perms(0777));
  CHECK(inChild([&] {
          becomeSomebody();
          std::string told;
          return answer(base::save(path, "three\n", &told)) + ": " + told;
        }) == "saved: its owner could not be kept");
}

TEST_CASE("a name as long as the system takes can be saved") {
  const Folder folder;
  std::string name;
  for (int i = 0; i < 83; ++i) name += "窓";  // 249 bytes
  CHECK(answer(base::save(folder.path / (name + ".toml"), "one\n")) == "saved");
}

TEST_CASE("a signal that ends a save takes the half of it along") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  // The test's own handlers are not the program's.
  auto* const term = ::signal(SIGTERM, SIG_DFL);
  auto* const interrupt = ::signal(SIGINT, SIG_DFL);
  for (int round = 0; round < 40; ++round) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      base::removeTemporariesOnSignals();
      for (;;) static_cast<void>(base::save(path, version(1)));
    }
    ::usleep(3000 + 700 * static_cast<useconds_t>(round));
    ::kill(child, round % 2 == 0 ? SIGTERM : SIGINT);
    int status = 0;
    ::waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
    CHECK(WTERMSIG(status) == (round % 2 == 0 ? SIGTERM : SIGINT));
    CHECK(countFiles(folder.path) == 1);
  }
  ::signal(SIGTERM, term);
  ::signal(SIGINT, interrupt);
}

TEST_CASE("what an interrupted save left behind is used up by the next") {
  const Folder folder;
  std::ofstream(folder.path / ".a.toml.saving") << "half of somethi";
  CHECK(answer(base::save(folder.path / "a.toml", "x\n")) == "saved");
  CHECK(load(folder.path / "a.toml") == "x\n");
  CHECK(countFiles(folder.path) == 1);
}

TEST_CASE("a file that was changed or removed elsewhere is noticed") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  const auto as_read = base::fingerprintOf("one\n");
  CHECK(!base::changedOnDisk(path, as_read));
  CHECK(base::fingerprintOnDisk(path) == as_read);
  REQUIRE(!base::save(path, "onE\n"));
  CHECK(base::changedOnDisk(path, as_read));
  fs::remove(path);
  CHECK(base::changedOnDisk(path, as_read));
  CHECK(!base::fingerprintOnDisk(path));
}

TEST_CASE("the hash is FNV-1a") {
  // Test vectors of 64-bit FNV-1a by its authors: "", "a", "foobar".
  CHECK(base::fingerprintOf("").hash == 0xcbf29ce484222325U);
  CHECK(base::fingerprintOf("a").hash == 0xaf63dc4c8601ec8cU);
  CHECK(base::fingerprintOf("foobar").hash == 0x85944171f73967e8U);
}

TEST_CASE("a folder or a file that can't be written is told in a sentence") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  fs::permissions(path, fs::perms(0644));
  fs::permissions(folder.path, fs::perms(0555));
  const auto try_it = [&] {
    becomeSomebody();
    return answer(base::save(path, "two\n"));
  };
  const auto other_owner = inChild(try_it);
  CHECK(other_owner.starts_with("Not saved: there is no permission to write"));
  fs::permissions(path, fs::perms(0666));
  CHECK(inChild(try_it) == "Not saved: there is no permission to write in the folder \"" + folder.path.string() +
                               "\". The file on the disk is as it was.");
  fs::permissions(folder.path, fs::perms(0777));
  fs::permissions(path, fs::perms(0444));
  CHECK(inChild(try_it) == "Not saved: there is no permission to write \"a.toml\". The file on the disk is as it was.");
  CHECK(load(path) == "one\n");
  CHECK(answer(base::save(folder.path / "none" / "a.toml", "x")) == "Not saved: there is no folder \"" +
                                                                        (folder.path / "none").string() +
                                                                        "\". The file on the disk is as it was.");
  CHECK(answer(base::save(folder.path, "x")).ends_with("is not a plain file. The file on the disk is as it was."));
  CHECK(countFiles(folder.path) == 1);
}

TEST_CASE("a text that is too large for the file system leaves the old file") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  REQUIRE(!base::save(path, "one\n"));
  CHECK(inChild([&] {
          const rlimit limit{4096, 4096};
          ::setrlimit(RLIMIT_FSIZE, &limit);
          ::signal(SIGXFSZ, SIG_IGN);
          return answer(base::save(path, version(1)));
        }) == "Not saved: it is larger than a file may be here. The file on the disk is as it was.");
  CHECK(load(path) == "one\n");
  CHECK(countFiles(folder.path) == 1);
}

TEST_CASE("a full disk leaves the old file, and says so") {
  const Folder folder;
  const auto said = inChild([&]() -> std::string {
    const bool mounted = ::unshare(::geteuid() == 0 ? CLONE_NEWNS : CLONE_NEWUSER | CLONE_NEWNS) == 0 &&
                         ::mount("none", folder.path.c_str(), "tmpfs", 0, "size=64k") == 0;
    if (!mounted) return "no disk to fill";
    const auto path = folder.path / "a.toml";
    if (base::save(path, "one\n")) return "could not begin";
    const auto first = answer(base::save(path, version(1)));
    return first + "|" + load(path) + "|" + std::to_string(countFiles(folder.path));
  });
  if (said == "no disk to fill") {
    WARN("this system lends tests no disk of their own: a full one was not tried");
    return;
  }
  CHECK(said == "Not saved: the disk is full. The file on the disk is as it was.|one\n|1");
}

TEST_CASE("a recovery file brings back what was kept for its job, and nothing else") {
  const Folder folder;
  const auto state = folder.path / "state" / "recovery";
  const auto job = folder.path / "a.toml";
  const Recovery recovery{job, base::fingerprintOf("one\n"), "two\n# é\n"};
  CHECK(!kept(state, job));
  CHECK(answer(keep(state, recovery)) == "saved");
  CHECK(kept(state, job) == recovery);
  CHECK(kept(state, folder.path / "x" / ".." / "a.toml") == recovery);
  CHECK(!kept(state, folder.path / "b.toml"));
  const auto whole = load(recoveryFile(state, job));
  for (std::size_t i = 0; i < whole.size(); ++i) {  // any byte wrong, any length short
    auto bad = whole;
    bad[i] = static_cast<char>(bad[i] ^ 1);
    std::ofstream(recoveryFile(state, job), std::ios::binary) << bad;
    CHECK(!kept(state, job));
    std::ofstream(recoveryFile(state, job), std::ios::binary) << whole.substr(0, i);
    CHECK(!kept(state, job));
  }
  std::ofstream(recoveryFile(state, job), std::ios::binary) << whole;
  CHECK(kept(state, job) == recovery);
  forget(state, job);
  CHECK(!kept(state, job));
  CHECK(keep({}, recovery).has_value());
}

TEST_CASE("no beginning of a recovery file is one, nor one with a byte changed") {
  const Recovery whole{"/a/job \u00e9.toml", base::fingerprintOf("before"), "[job]\n12\n\n\0after"};
  const std::string text = recoveryText(whole);
  REQUIRE(parseRecovery(text) == whole);
  for (std::size_t size = 0; size < text.size(); ++size) {
    const std::vector<char> exact(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(size));
    CHECK_FALSE(parseRecovery({exact.data(), exact.size()}));
    std::string changed = text;
    changed[size] = changed[size] == '1' ? '2' : '1';
    CHECK_FALSE(parseRecovery(changed));
  }
  CHECK_FALSE(parseRecovery(text + "\n"));
}

TEST_CASE("the recovery folder is where the XDG specification has it") {
  const auto inside = [](const char* state, const char* home) {
    return inChild([&] {
      state == nullptr ? ::unsetenv("XDG_STATE_HOME") : ::setenv("XDG_STATE_HOME", state, 1);
      home == nullptr ? ::unsetenv("HOME") : ::setenv("HOME", home, 1);
      return recoveryFolder().string();
    });
  };
  CHECK(inside("/s", "/h") == "/s/sillwright/recovery");
  CHECK(inside(nullptr, "/h") == "/h/.local/state/sillwright/recovery");
  CHECK(inside("relative", "/h") == "/h/.local/state/sillwright/recovery");
  CHECK(inside(nullptr, nullptr).empty());
}

TEST_CASE("killed 200 times at any moment, job and recovery file are whole") {
  const Folder folder;
  const auto path = folder.path / "a.toml";
  const auto state = folder.path / "state";
  using Clock = std::chrono::steady_clock;
  constexpr int kTries = 5;
  const auto begin = Clock::now();
  for (int i = 0; i < kTries; ++i) {
    REQUIRE(!keep(state, {path, {}, version(0)}));
    REQUIRE(!base::save(path, version(0)));
  }
  const auto whole_step = std::chrono::duration_cast<std::chrono::microseconds>(Clock::now() - begin).count() / kTries;
  const std::size_t longest_wait = std::clamp<std::size_t>(static_cast<std::size_t>(whole_step) * 3, 1000, 100'000);
  Chance chance(7);
  int next = 1;
  int left_behind = 0;
  int moved_on = 0;
  for (int round = 0; round < 200; ++round) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      for (int number = next;; ++number) {
        const auto text = version(number);
        if (number == next && ::write(ends[1], "!", 1) != 1) ::_exit(1);
        if (keep(state, {path, {}, text}) || base::save(path, text)) ::_exit(1);
      }
    }
    char ready = 0;
    REQUIRE(::read(ends[0], &ready, 1) == 1);
    ::usleep(static_cast<useconds_t>(chance.below(longest_wait)));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(ends[0]);
    ::close(ends[1]);
    REQUIRE(WIFSIGNALED(status));
    const auto text = load(path);
    INFO("round " << round << ", " << text.size() << " bytes");
    REQUIRE(isWhole(text));
    const auto recovery = kept(state, path);
    REQUIRE(recovery);
    REQUIRE(isWhole(recovery->text));
    // Kept before it was saved: never behind the file.
    const auto number = [](const std::string& whole) { return std::atoi(whole.c_str() + whole.rfind("end ") + 4); };
    CHECK(number(recovery->text) >= number(text));
    if (fs::exists(folder.path / ".a.toml.saving")) ++left_behind;
    if (number(text) >= next) ++moved_on;
    next = number(text) + 1;
  }
  CHECK(left_behind > 0);  // else no save was ever hit in its middle
  CHECK(moved_on > 0);
  CHECK(countFiles(folder.path) <= 3);
  CHECK(countFiles(state) <= 2);
}

}  // namespace sillwright::document::test
