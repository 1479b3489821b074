#include "cli/drawing_verbs.h"
#include "cli/files.h"
#include "document/assets.h"
#include "render/offscreen.h"
#include "view/values/camera_control.h"
#include "view/window/window.h"

namespace sillwright::cli {
namespace {

std::string viewWords() {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < view::kStandingViews; ++i) {
    words.emplace_back(view::wordFor(static_cast<view::StandingView>(i)));
  }
  return base::joined(words);
}

/// What of the command is words yet, into the view's options.
void readOptions(const PictureOptions& options, view::PictureOptions& into) {
  readSize(options.size, into.width, into.height);
  if (!options.view.empty()) into.view = view::standingView(options.view);
  if (!options.view.empty() && !into.view)
    refuse("--view wants one of " + viewWords() + "; found '" + options.view + "'.");
  if (!options.cut.empty()) {
    const auto cut = view::parseCut(options.cut);
    if (!cut.ok()) refuse("--cut: " + cut.errors.front().say + ".");
    into.cut = cut.value;
  }
  const auto what_ifs = plan::parseWhatIfs(options.what_if);
  for (const auto& error : what_ifs.errors) tell("--what-if: " + error.say + ".");
  if (!what_ifs.ok()) throw Refused();
  into.what_ifs = *what_ifs.value;
  into.labels = !options.bare;
}

void readHidden(const std::vector<std::string>& names, const practice::Words& words, view::PictureOptions& into) {
  for (const auto& name : names) {
    const auto layer = view::layerNamed(name, words);
    if (!layer) refuse("--hide wants layers among " + view::layerWords() + "; found '" + name + "'.");
    into.hidden_layers |= 1U << static_cast<unsigned>(*layer);
  }
}

}  // namespace

void readSize(const std::string& size, int& width, int& height) {
  int read = 0;
  const int found = std::sscanf(size.c_str(), "%9dx%9d%n", &width, &height, &read);  // nine digits fit an int
  if (found != 2 || static_cast<std::size_t>(read) != size.size())                   // or something stands behind them
    refuse("--size wants WIDTHxHEIGHT in pixels, 1600x1000 say; found '" + size + "'.");
}

int picture(const PictureOptions& options) {
  endingOf(options.out, {".png"});
  view::PictureOptions wanted = options.drawn;
  readOptions(options, wanted);
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  readHidden(options.hide, document.practice->words, wanted);  // layers have names of the practice, known only now
  const auto image = taken(options.panels ? view::screenPicture(options.job, document::assetsFolder(), wanted)
                                          : view::picture(document, wanted));
  render::writePng(options.out, image);
  return kReady;
}

int viewer(const std::filesystem::path& job) { return view::runWindow({job, document::assetsFolder(), true, {}}); }

}  // namespace sillwright::cli
