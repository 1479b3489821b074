// The survey of an opening asks the heap for nothing, whatever was read and however it disagrees.

#include <cstddef>
#include <cstdlib>
#include <new>
#include <optional>

#include "plan/survey/survey.h"
#include "support/catch.h"
#include "support/survey_rig.h"

namespace {

std::size_t asked = 0;

}  // namespace

void* operator new(std::size_t size) {
  ++asked;
  if (void* memory = std::malloc(size > 0 ? size : 1)) return memory;
  throw std::bad_alloc();
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++asked;
  return std::malloc(size > 0 ? size : 1);
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

using namespace sillwright;
using namespace sillwright::plan;

TEST_CASE("the survey allocates nothing") {
  rig::Chance chance(51);
  const auto errors = rig::tapeErrors();
  std::size_t during = 0;
  int disputes = 0;
  for (std::uint32_t which = 0; which < 512; ++which) {
    auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    if (which % 2 == 1) value[which % kReadings] += 30;
    const std::optional<job::Measured> measured = rig::measured(value, which);
    const std::size_t before = asked;
    const AsBuilt built = survey({1530, 1060}, measured, errors);
    during += asked - before;
    if (built.trust == Trust::Disputed || built.trust == Trust::Suspect) ++disputes;
  }
  CHECK(during == 0);
  CHECK(disputes > 20);  // the long way round was taken too
  const std::size_t before = asked;
  int* volatile one = new int(1);  // volatile: or the compiler may leave out what comes to nothing
  delete one;
  const std::size_t counted = asked - before;
  CHECK(counted == 1);  // and the count does count
}
