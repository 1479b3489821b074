#include "view/values/readings.h"

#include <set>

#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::view;

TEST_CASE("a drawing's figures have a minus sign, and no unit in millimetres") {
  CHECK(figure(1530.0, practice::Display::Millimetres) == "1530");
  CHECK(figure(-1.4, practice::Display::Millimetres) == "−1.4");
  CHECK(figure(25.4, practice::Display::InchFractions) == "1 in");
}

TEST_CASE("each layer has a word and a key of its own") {
  std::set<std::string> words;
  std::set<char> keys;
  for (std::size_t i = 0; i < scene::kLayers; ++i) {
    words.insert(wordFor(static_cast<scene::Layer>(i), practice::Words{}));
    keys.insert(keyFor(static_cast<scene::Layer>(i)));
  }
  CHECK(words.size() == scene::kLayers);
  CHECK(keys.size() == scene::kLayers);
}

TEST_CASE("layers go by the practice's words") {
  practice::Words words;
  words.packer = "shim";
  words.membrane = "wrap";
  CHECK(wordFor(scene::Layer::Packing, words) == "shims");
  CHECK(wordFor(scene::Layer::Membrane, words) == "wrap");
}

TEST_CASE("a verdict's sentence counts the findings that lead to it") {
  std::vector<check::Finding> findings(3);
  findings[0].severity = check::Severity::Stop;
  findings[1].severity = check::Severity::Attend;
  findings[2].severity = check::Severity::Attend;
  CHECK(sentenceFor(check::Verdict::Stop, check::Basis::Measured, findings) ==
        "1 thing to put right before it can be set");
  CHECK(sentenceFor(check::Verdict::Attend, check::Basis::Measured, findings) == "2 things to see to before it is set");
}
