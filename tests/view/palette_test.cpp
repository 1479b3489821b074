#include "view/marks/drawing.h"

#include <vector>

#include "support/catch.h"
#include "support/contrast.h"

using namespace sillwright::view;

namespace {

double contrast(Colour a, Colour b) {
  const auto shares = [](Colour of) { return glm::vec3(of.red, of.green, of.blue) / 255.0F; };
  return sillwright::testing::contrast(shares(a), shares(b));
}

}  // namespace

TEST_CASE("contrast follows WCAG 2.1's formula") {
  // Black on white is 21 : 1 by the formula's own range: (1 + 0.05) / (0 + 0.05).
  CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21.0));
  CHECK(contrast({255, 255, 255}, {0, 0, 0}) == Approx(21.0));
  CHECK(contrast({80, 90, 100}, {80, 90, 100}) == Approx(1.0));
  // #767676: ((118/255 + 0.055) / 1.055)^2.4 = 0.1812; 1.05 / 0.2312 = 4.54, the darkest step below which grey on white
  // fails (#777777 gives 4.48).
  CHECK(contrast({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.005));
  CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == Approx(4.48).margin(0.005));
}

TEST_CASE("text has a contrast of at least 4.5 on every ground it stands on") {
  // WCAG 2.1, 1.4.3: 4.5 : 1 for text of ordinary size.
  const bool dark = GENERATE(false, true);
  const Palette& colours = palette(dark);
  for (const Colour ground : {colours.ground, colours.paper, colours.hovered, colours.picked}) {
    CHECK(contrast(colours.ink, ground) >= 4.5);
    CHECK(contrast(colours.quiet, ground) >= 4.5);
  }
  CHECK(contrast(colours.ink, colours.unit) >= 4.5);  // the unit's size stands in it
}

TEST_CASE("drawn lines stand out from what they are drawn on") {
  // WCAG 2.1, 1.4.11: 3 : 1 for what has to be made out in a drawing.
  const Palette& colours = palette(GENERATE(false, true));
  for (const Colour ground : {colours.paper, colours.timber, colours.unit}) {
    CHECK(contrast(colours.ink, ground) >= 3.0);
  }
  CHECK(contrast(colours.packer, colours.paper) >= 3.0);
}

TEST_CASE("the verdicts' colours are Okabe and Ito's") {
  // Okabe & Ito, "Color Universal Design", 2008: bluish green, orange, vermillion, sky blue.
  using sillwright::check::Verdict;
  CHECK(colourOf(Verdict::Ready) == Colour{0, 158, 115});
  CHECK(colourOf(Verdict::Attend) == Colour{230, 159, 0});
  CHECK(colourOf(Verdict::Stop) == Colour{213, 94, 0});
  CHECK(kPlannedRing == Colour{86, 180, 233});
}
