#include "base/words.h"

#include <vector>

#include "support/catch.h"

namespace sillwright::base::test {
namespace {

std::string_view nearestOf(std::string_view name, const std::vector<std::string_view>& known) {
  return nearest(name, known);
}

}  // namespace

TEST_CASE("the nearest name is found over one slip of each kind") {
  const std::vector<std::string_view> known = {"length", "width", "out_of_level", "at"};
  CHECK(nearestOf("lenght", known) == "length");   // swapped
  CHECK(nearestOf("lngth", known) == "length");    // left out
  CHECK(nearestOf("lenngth", known) == "length");  // put in
  CHECK(nearestOf("lemgth", known) == "length");   // changed
  CHECK(nearestOf("WIDTH", known) == "width");
  CHECK(nearestOf("out-of-level", known) == "out_of_level");
  CHECK(nearestOf("ta", known) == "at");
}

TEST_CASE("a name that is far from all has no nearest") {
  const std::vector<std::string_view> known = {"length", "width", "at"};
  CHECK(nearestOf("zzz", known).empty());
  CHECK(nearestOf("lemon", known).empty());
  CHECK(nearestOf("", {}).empty());
  CHECK(nearestOf(std::string(10'000, 'l'), known).empty());
}

TEST_CASE("the distance is the one of the textbook's words") {
  // Levenshtein 1966: a "kitten" is three changes from "sitting"; too many for a word of six letters.
  CHECK(nearestOf("kitten", {"sitting"}).empty());
  // Nine letters may have three slips.
  CHECK(nearestOf("thiknes", {"thickness"}) == "thickness");
  CHECK(nearestOf("tihkcness", {"thickness"}) == "thickness");
}

TEST_CASE("of two names that are equally near the first is taken") { CHECK(nearestOf("xat", {"bat", "cat"}) == "bat"); }

TEST_CASE("texts are shown on one line") {
  CHECK(oneLine("a\n\t\r\x01\x7F") == "a\\n\\t\\r\\x01\\x7F");
  CHECK(oneLine("é – ok") == "é – ok");
  CHECK(oneLine("\u0085\u2028") == "\\xC2\\x85\\xE2\\x80\\xA8");
  CHECK(oneLine("éééé", 3) == "ééé…");
  CHECK(oneLine("a\xFF\xC3\xA9\xE2\x82") == "a\\xFFé\\xE2\\x82");
  CHECK(oneLine("\xED\xA0\x80\xC0\x80", 4) == "\\xED\\xA0\\x80\\xC0…");  // half a surrogate, an overlong zero
  CHECK(oneLine("a\u202Eb\u2066\uFFFF") == "a\\xE2\\x80\\xAEb\\xE2\\x81\\xA6\\xEF\\xBF\\xBF");
  CHECK(oneLine("\u200F\u2065\u206A") == "\u200F\u2065\u206A");
  CHECK(quote("") == "\"\"");
  CHECK(countCharacters("aé€🪟") == 4);
}

TEST_CASE("what goes to a terminal keeps its lines and nothing that moves them") {
  CHECK(printable("one\ntwo\x1B[2J\r\n\u202Ethree") == "one\ntwo\\x1B[2J\\r\n\\xE2\\x80\\xAEthree");
}

TEST_CASE("a text is shortened between its characters") {
  CHECK(shortened("窓窓窓", 9) == "窓窓窓");
  CHECK(shortened("窓窓窓", 8) == "窓窓");
  CHECK(shortened("窓", 2).empty());
}

TEST_CASE("control characters are told from others") {
  CHECK(holdsControls("\uFFFE"));
  CHECK(holdsControls("\uFFFF"));
  CHECK_FALSE(holdsControls("\uFFFD \u202E"));
  CHECK(holdsControls("a\x1F"));
  CHECK(holdsControls("a\x7F"));
  CHECK(holdsControls("\u0080"));
  CHECK(holdsControls("\u009F"));
  CHECK(holdsControls("\u2029"));
  CHECK_FALSE(holdsControls("\u00A0 é € 🪟"));
  CHECK_FALSE(holdsControls(""));
}

}  // namespace sillwright::base::test
