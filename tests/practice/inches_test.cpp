// Lengths in inches, read from words.
#include "practice/figure.h"

#include "support/catch.h"

namespace sillwright::practice::test {

TEST_CASE("words that are no length are not read as one") {
  for (const char* words :
       {"",   "-",     " 5",  "5 ",  "5in", "in",  "1/0 in", "5 4 in",         "5 1/ in", "5 ft", "5 ft in",  "--5",
        "+5", "5 1/4", "1/4", "5,5", "nan", "inf", "1e3 in", "5 ft 3 ft 1 in", "0x10",    ".5",   "5 -1/4 in"}) {
    INFO(words);
    CHECK_FALSE(readLength(words).has_value());
  }
  CHECK(*readLength("5") == 5);
  CHECK(*readLength("2.5 in") == Approx(63.5));
  CHECK(*readLength("1 ft 0 in") == Approx(304.8));
}

}  // namespace sillwright::practice::test
