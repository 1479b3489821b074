/// What the viewer knows: the job that is open, what is shown of it, and what a person has in hand.
///
/// Input and panels make wishes (shown.h); `grant` does them. Nothing here draws or needs a window: the frame
/// (window/frame.h) reads this state, and asks the functions of this sub-room to change it. The parts of the state that
/// change together are structs of their own; a function takes the parts that it needs, or the whole where an edit
/// reaches everything.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "document/document.h"
#include "document/history.h"
#include "document/jobs.h"
#include "view/session/cut_hand.h"
#include "view/session/focus.h"
#include "view/session/hand.h"
#include "view/session/keeping.h"
#include "view/session/layout.h"
#include "view/session/lesson_play.h"
#include "view/session/pull.h"
#include "view/session/shown.h"
#include "view/session/typing.h"
#include "view/session/work.h"
#include "view/values/flash.h"
#include "view/values/input.h"

namespace sillwright::view {

/// How the camera is moving.
struct Eye {
  Flight flight;
  bool instant = false;         ///< Flights arrive at once.
  bool placed = false;          ///< The camera has been put before the job.
  float moving_seconds = 0.0F;  ///< The camera counts as moving for so long after a drag's move or a notch.
};

/// A sentence above the foot: what went wrong or was done last. The next key or button clears it.
struct Notice {
  std::string words;
  bool stops = false;  ///< It went wrong.
};

/// Going from one job to another.
struct JobsOffered {
  std::optional<document::JobChoices> choices;  ///< While the page of jobs is open.
  std::optional<OpenJob> waiting;               ///< For the answer whether what is unsaved may be lost.
};

struct App {
  JobFile file;
  std::optional<document::Document> document;
  std::uint64_t version = 0;  ///< Of the scene.
  document::History history;
  Shown shown;
  Notice notice;
  Eye eye;
  Pointed pointed;
  Hand hand;
  std::optional<Pull> pull;
  CutHand cut;
  Focus focus;
  Typing typing;
  Flash flash;  ///< Of what the last edit changed.
  LessonPlay lesson;
  JobsOffered jobs;
  std::optional<Work> work;  ///< That takes more than a moment.
  InputQueue input;
  Layout layout;
  bool closing = false;
  int settle = 0;  ///< Frames still to be drawn after a change, for panels to find their sizes.
};

/// A viewer of the job at `path`; of none where that is empty: it shows which could be opened. A job that can't be read
/// is no reason to stop: the errors are shown.
[[nodiscard]] App open(const std::filesystem::path& path, const std::filesystem::path& assets,
                       const std::filesystem::path& recovery = {});
/// Another job in place of the one that is open, which is forgotten with all that was picked and done.
void openInstead(App& app, const std::filesystem::path& path);
/// Reads the file again and keeps what is picked and shown, as far as it is still there. Where it can't be read, the
/// document stays as it is, and `errors` say why.
void readAgain(App& app);

/// Does what a person wished.
void grant(App& app, const Wish& wish);
/// What may be wished for while work holds the job.
[[nodiscard]] bool changesNothing(const Wish& wish);
/// Whether work is at the job, which can't be changed meanwhile.
[[nodiscard]] bool isHeld(const App& app);
/// The scene that is drawn and pointed at: a lesson's card has its own.
[[nodiscard]] inline const scene::Scene& seenScene(const App& app) {
  return app.lesson.step ? app.lesson.step->scene : app.document->scene;
}
/// Where the panels will lie once what is picked has its sheet.
[[nodiscard]] Canvas canvasOf(const App& app);
void flyTo(App& app, const render::Camera& camera);
/// The scene was built anew: parts that were pointed at may be others now.
void newScene(App& app);
/// Asks for pictures until everything has found its size.
void disturb(App& app);
/// Says a sentence above the foot.
void tell(App& app, std::string words, bool stops);

/// Takes the text of the field in hand into the job. False: it was refused, and `typing.refusal` says why.
bool takeField(App& app);
/// Takes in what was typed once the keyboard is no longer on its field.
void leaveField(App& app);
/// Goes on in the tour once what its stop wants is done.
void followTour(App& app);
/// Keys into the field that the keyboard is on. False: it is on none, and the keys are free.
[[nodiscard]] bool followField(App& app, const InputStep& step);
/// The keyboard's part of a frame.
void followKeys(App& app, const InputStep& step, const Modifiers& held, Wishes& wishes);

/// Other jobs: the page that offers them, and going over to one.
void toggleJobsPage(App& app);
void openJob(App& app, const OpenJob& wish);
/// Does what waits for an answer, without asking again.
void goOn(App& app);

}  // namespace sillwright::view
