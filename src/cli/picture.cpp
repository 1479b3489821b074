#include <charconv>
#include <string_view>

#include "cli/files.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "document/document.h"
#include "render/offscreen.h"
#include "view/values/camera_control.h"
#include "view/window/picture.h"
#include "view/window/window.h"

namespace sillwright::cli {
namespace {

std::string viewWords() {
  std::string words;
  for (std::size_t i = 0; i < view::kStandingViews; ++i) {
    if (i > 0) words += ", ";
    words += view::wordFor(static_cast<view::StandingView>(i));
  }
  return words;
}

bool readInteger(std::string_view text, int& value) {
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  return result.ec == std::errc{} && result.ptr == text.data() + text.size();
}

/// The command's words as the view's options; says what is wrong and answers false where they don't fit.
bool readOptions(const PictureOptions& options, view::PictureOptions& into) {
  const auto wrong = [](const std::string& sentence) { return refuse(sentence) == kReady; };
  if (!readSize(options.size, into.width, into.height)) return false;
  if (!options.view.empty()) into.view = view::standingView(options.view);
  if (!options.view.empty() && !into.view)
    return wrong("--view wants one of " + viewWords() + "; found '" + options.view + "'.");
  if (!options.opening.empty()) into.opening = options.opening;
  if (!options.cut.empty()) {
    const auto cut = view::parseCut(options.cut);
    if (!cut.ok()) return wrong("--cut: " + cut.errors.front().say + ".");
    into.cut = cut.value;
  }
  auto what_ifs = plan::parseWhatIfs(options.what_if);
  for (const auto& error : what_ifs.errors) tell("--what-if: " + error.say + ".");
  if (!what_ifs.ok()) return false;
  into.what_ifs = std::move(*what_ifs.value);
  into.step = options.step;
  into.water = options.water;
  into.dark = options.dark;
  into.labels = !options.bare;
  into.magnify = options.magnify;
  into.spread = static_cast<float>(options.spread);
  return true;
}

bool readHidden(const std::vector<std::string>& names, const practice::Words& words, view::PictureOptions& into) {
  for (const auto& name : names) {
    const auto layer = view::layerNamed(name, words);
    if (!layer) tell("--hide wants layers among " + view::layerWords() + "; found '" + name + "'.");
    if (!layer) return false;
    into.hidden_layers |= 1U << static_cast<unsigned>(*layer);
  }
  return true;
}

}  // namespace

bool readSize(const std::string& size, int& width, int& height) {
  const auto cross = size.find('x');
  const std::string_view text{size};
  if (cross != std::string::npos && readInteger(text.substr(0, cross), width) &&
      readInteger(text.substr(cross + 1), height)) {
    return true;
  }
  tell("--size wants WIDTHxHEIGHT in pixels, 1600x1000 say; found '" + size + "'.");
  return false;
}

int picture(const PictureOptions& options) {
  static constexpr std::string_view kEndings[] = {".png"};
  view::PictureOptions wanted;
  if (!endingOf(options.out, kEndings) || !readOptions(options, wanted)) return kUnreadable;
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (!document) return kUnreadable;
  if (!readHidden(options.hide, document->practice->words, wanted)) return kUnreadable;
  const auto image = options.panels ? view::screenPicture(options.job, document::assetsFolder(), wanted)
                                    : view::picture(*document, wanted);
  if (!image.ok()) return refuse(image.errors);
  render::writePng(options.out, *image.value);
  return kReady;
}

int viewer(const std::filesystem::path& job) { return view::runWindow({job, document::assetsFolder(), true, {}}); }

}  // namespace sillwright::cli
