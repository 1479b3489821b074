// Sentences put together, and what stays on one line.
#include "words/text.h"

#include "support/catch.h"

namespace sillwright::words::test {

TEST_CASE("counts and lists read as they are spoken") {
  CHECK(count(1, "stud") == "1 stud");
  CHECK(count(2, "stud") == "2 studs");
  CHECK(count(3, "person", "people") == "3 people");
  CHECK(listed({}) == "");
  CHECK(listed({"a"}) == "a");
  CHECK(listed({"a", "b"}) == "a and b");
  CHECK(listed({"a", "b", "c"}, " or ") == "a, b or c");
  CHECK(capital("sill") == "Sill");
  CHECK(capital("Übermass") == "Übermass");
}

TEST_CASE("a figure stays with its unit, its fraction and its product") {
  CHECK(unbroken("gap 12.5 mm here") == "gap 12.5\u00A0mm here");
  CHECK(unbroken("at 60 1/4 in.") == "at 60\u00A01/4\u00A0in.");
  CHECK(unbroken("1510 × 1040 mm, set") == "1510\u00A0×\u00A01040\u00A0mm, set");
  CHECK(unbroken("3 studs of 2") == "3 studs of 2");
}

TEST_CASE("lines end between words, never inside a length, nor between a quoted name and its full stop") {
  const auto most = [](std::size_t characters) {
    return [=](std::string_view line) { return line.size() <= characters; };
  };
  CHECK(wrapped("the gap is 12 mm", most(14)) == "the gap is\n12 mm");
  CHECK(wrapped("it overlaps \"N1\".", most(15)) == "it overlaps\n\"N1\".");
  CHECK(wrapped("one\ntwo three", most(20)) == "one\ntwo three");
  CHECK(wrapped("extraordinarily so", most(5)) == "extraordinarily\nso");
}

}  // namespace sillwright::words::test
