// The first start's tour: five things, each done by the person on the job that is open.

#include <array>

#include "view/session/app.h"

namespace sillwright::view {
namespace {

struct Stop {
  TourWords words;
  bool (*done)(const App&);
};

constexpr std::array<Stop, 5> kStops{{
    {{"Pick an opening", "Click a window or a door, in the drawing or in the list at the left."},
     [](const App& app) { return app.shown.opening >= 0; }},
    {{"Change its size", "Drag one of the handles on its edges, and watch the sheet at the right."},
     [](const App& app) { return app.history.canUndo(); }},
    {{"Undo that", "Press Ctrl Z. Nothing reaches the file before Ctrl S."},
     [](const App& app) { return app.history.canRedo(); }},
    {{"Look inside", "Press K: the wall is cut through what is picked. K again turns the cut, Escape ends it."},
     [](const App& app) { return app.shown.cutting.axis.has_value(); }},
    {{"See the order of work", "Press W for the cards, then the full stop to lay one after the other."},
     [](const App& app) { return app.shown.lesson.on() && app.shown.lesson.place > 0; }},
}};

}  // namespace

TourWords tourWords(int stop) {
  return kStops[static_cast<std::size_t>(stop)].words;
}

void followTour(App& app) {
  int& at = app.shown.tour;
  if (at < 0 || !app.document || !kStops[static_cast<std::size_t>(at)].done(app)) return;
  at = at + 1 < kTourStops ? at + 1 : -1;
  if (at < 0) tell(app, "That is the tour. ? lists all keys.", false);
  disturb(app);
}

}  // namespace sillwright::view
