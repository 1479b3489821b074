#include <cmath>
#include <limits>

#include "job/rule.h"
#include "support/catch.h"

namespace sillwright::job::test {

TEST_CASE("numbers are told plainly") {
  CHECK(toText(100'000.0) == "100000");
  CHECK(toText(0.1) == "0.1");
  CHECK(toText(-3.0) == "-3");
  CHECK(toText(1e300) == "1e+300");
  CHECK(toText(1e-9) == "1e-09");
  CHECK(toText(std::nan("")) == "nan");
  CHECK(toText(-std::numeric_limits<double>::infinity()) == "-inf");
}

}  // namespace sillwright::job::test
