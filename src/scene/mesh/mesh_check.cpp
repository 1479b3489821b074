// An OBJ's text, line by line, before the loader sees it: the loader itself passes over what it can't read.
#include <charconv>
#include <cmath>
#include <cstddef>

#include "scene/mesh/mesh.h"
#include "scene/mesh/mesh_parts.h"

namespace sillwright::scene {
namespace {

constexpr std::size_t kMostErrors = 20;

/// Takes the next line off `text`. Lines end at \n, \r\n or \r, as they do for the loader.
std::string_view takeLine(std::string_view& text) {
  const std::size_t end = text.find_first_of("\r\n");
  const std::string_view line = text.substr(0, end);
  if (end == std::string_view::npos) {
    text = {};
  } else {
    const bool both = text.substr(end, 2) == "\r\n";
    text.remove_prefix(end + (both ? 2 : 1));
  }
  return line;
}

/// Takes the next word off a line; empty at its end.
std::string_view takeWord(std::string_view& line) {
  const std::size_t begin = line.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return {};
  line.remove_prefix(begin);
  const std::string_view word = line.substr(0, line.find_first_of(" \t"));
  line.remove_prefix(word.size());
  return word;
}

template <class Number>
bool readWhole(std::string_view word, Number& number) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);
  const std::from_chars_result result = std::from_chars(word.data(), word.data() + word.size(), number);
  return result.ec == std::errc() && result.ptr == word.data() + word.size();
}

/// A corner's numbers of a texture and of a normal, "" to "/1/2": passed over, but the loader takes what it makes of
/// anything else for a further corner.
bool isTextureAndNormal(std::string_view rest) {
  for (int part = 0; part < 2 && !rest.empty(); ++part) {
    rest.remove_prefix(1);  // the slash
    const std::string_view number = rest.substr(0, rest.find('/'));
    long long ignored = 0;
    if (!number.empty() && !readWhole(number, ignored)) return false;
    rest.remove_prefix(number.size());
  }
  return rest.empty();
}

/// A corner that names a vertex further down the file, looked at again when all vertices are known.
struct Ahead {
  std::uint32_t line = 0;
  long long vertex = 0;
};

/// Whether the loader reads the number as the standard library does: it multiplies the digits by a power of its own,
/// which overflows ("0e794" would be no number), and adds them up one by one.
bool isReadAlike(std::string_view word) {
  constexpr std::size_t kMostCharacters = 64;
  constexpr int kLargestExponent = 99;
  if (word.size() > kMostCharacters) return false;
  const std::size_t mark = word.find_first_of("eE");
  if (mark == std::string_view::npos) return true;
  int exponent = 0;
  return readWhole(word.substr(mark + 1), exponent) && exponent <= kLargestExponent;
}

class Checker {
 public:
  explicit Checker(const std::string& file) : file_(file) {}

  std::vector<base::Error> check(std::string_view text) {
    while (!text.empty() && errors_.size() < kMostErrors) {
      ++line_;
      std::string_view line = takeLine(text);
      if (line.find('\0') != std::string_view::npos) {
        say("this is not text; an OBJ is a text file");
        return errors_;
      }
      const std::string_view word = takeWord(line);
      if (word == "v") checkVertex(line);
      if (word == "f") checkFace(line);
    }
    if (!errors_.empty()) return errors_;
    for (const Ahead& ahead : ahead_) {
      if (ahead.vertex <= vertices_ || errors_.size() >= kMostErrors) continue;
      line_ = ahead.line;
      say("vertex " + std::to_string(ahead.vertex) + " does not exist; the file has " + std::to_string(vertices_));
    }
    line_ = 0;
    if (errors_.empty() && triangles_ == 0) say("no faces; an OBJ needs lines that begin with f");
    return errors_;
  }

 private:
  void say(std::string words) { errors_.push_back({file_, {line_, line_ > 0 ? 1U : 0U}, "", std::move(words)}); }

  void checkVertex(std::string_view line) {
    ++vertices_;
    for (int i = 0; i < 3; ++i) {
      const std::string_view word = takeWord(line);
      double value = 0;
      if (word.empty()) return say("a vertex needs three numbers, found " + std::to_string(i));
      if (!readWhole(word, value) || !std::isfinite(value)) {
        return say("\"" + std::string(word.substr(0, 40)) + "\" is not a finite number");
      }
      if (!isReadAlike(word)) {
        return say("\"" + std::string(word.substr(0, 40)) +
                   "\" is a number in a form that is not read: at most 64 characters, an exponent of at most 99");
      }
      if (std::abs(value) > kFarthestVertex) {
        return say("a vertex lies further than 1000000 mm from the origin: " + std::string(word.substr(0, 40)));
      }
    }
  }

  void checkFace(std::string_view line) {
    std::size_t corners = 0;
    for (std::string_view word = takeWord(line); !word.empty(); word = takeWord(line)) {
      ++corners;
      if (!checkCorner(word)) return;
    }
    if (corners < 3) return say("a face needs three corners or more, found " + std::to_string(corners));
    if (corners > kMostCorners) {
      return say("a face may have 256 corners at most, found " + std::to_string(corners));
    }
    const bool were_few = triangles_ <= kMostTriangles;
    triangles_ += corners - 2;
    if (were_few && triangles_ > kMostTriangles) say("more than 2000000 triangles");
  }

  bool checkCorner(std::string_view word) {
    long long vertex = 0;
    const std::string_view number = word.substr(0, word.find('/'));
    if (!readWhole(number, vertex) || !isTextureAndNormal(word.substr(number.size()))) {
      say("\"" + std::string(word.substr(0, 40)) + "\" is not a face's corner; it is the number of a vertex");
      return false;
    }
    if (vertex == 0) {
      say("vertices are counted from 1, found 0");
      return false;
    }
    if (vertex < 0 && -vertex > vertices_) {
      say("vertex " + std::to_string(vertex) + " does not exist; " + std::to_string(vertices_) +
          " stand before this line");
      return false;
    }
    if (vertex > vertices_) ahead_.push_back({line_, vertex});
    return true;
  }

  const std::string& file_;
  std::uint32_t line_ = 0;
  long long vertices_ = 0;
  std::size_t triangles_ = 0;
  std::vector<Ahead> ahead_;
  std::vector<base::Error> errors_;
};

}  // namespace

std::vector<base::Error> checkObj(std::string_view text, const std::string& file) {
  return Checker(file).check(text);
}

}  // namespace sillwright::scene
