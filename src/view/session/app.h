/// The viewer without its window: what it knows, and one frame of it.
///
/// `frame` takes input from the queue, lets panels and keys make wishes, grants them, and draws. The window calls it
/// when `wantsFrame`; tests call it with events of their own, an off-screen context and a fixed time step.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/save.h"
#include "document/document.h"
#include "document/history.h"
#include "document/jobs.h"
#include "document/lesson.h"
#include "document/recovery.h"
#include "scene/build/build.h"
#include "view/marks/flash.h"
#include "view/marks/lens.h"
#include "view/marks/lettering.h"
#include "view/panels/panels.h"
#include "view/panels/ui.h"
#include "view/session/camera_control.h"
#include "view/session/cut_hand.h"
#include "view/session/handles.h"
#include "view/session/input.h"
#include "view/session/shown.h"
#include "view/session/stage.h"
#include "view/session/typing.h"
#include "view/session/work.h"

namespace sillwright::view {

/// What a pressed button holds.
struct Hand {
  std::optional<Button> button;
  bool sliding = false;   ///< Else turning.
  bool dragging = false;  ///< Moved further than a click may.
  ImVec2 start;
  glm::vec3 held{0.0F};  ///< Point of the world under the pointer when the button went down.
  render::Camera from;   ///< The eye then: a drag's end doesn't depend on how many frames it took.
};

/// A handle that is being dragged, or typed to.
struct Pull {
  Handle handle;
  glm::dvec2 grabbed{0.0};    ///< How far along it the pointer took hold.
  std::vector<double> first;  ///< Of its dimensions; of a built corner 0, 0: then how far it is moved.
  plan::OpeningShape shape;   ///< That a built corner was taken hold of in.
  job::Job before;
  std::string typed;
  std::string refusal;  ///< Why what was typed isn't taken.
};

/// What saving needs to know of the file.
struct Kept {
  job::Job job;                               ///< As Document::text reads: every save starts from the two.
  base::Fingerprint on_disk;                  ///< Of what was last read or written.
  std::filesystem::file_time_type looked_at;  ///< Time of the file when the disk was last looked at.
  std::filesystem::path recovery;             ///< Folder of recovery files; empty: none are kept.
  std::optional<document::Recovery> found;    ///< Edits of another time, not saved then.
  std::optional<float> stale_seconds;         ///< Since an edit that the recovery file doesn't hold.
};

struct App {
  std::filesystem::path path;
  std::filesystem::path assets;
  std::optional<document::Document> document;
  std::vector<base::Error> errors;      ///< Why there is no document, or only the last good one.
  std::vector<std::string> file_lines;  ///< The job file's own lines, for the error page.
  Kept kept;                            ///< The file as it was read, and what is kept of unsaved edits.
  std::string notice;                   ///< What went wrong or was done last, in a sentence; gone with the next key.
  bool notice_stops = false;            ///< It went wrong.
  std::uint64_t version = 0;            ///< Of the scene.

  Shown shown;
  Flight flight;
  Hand hand;
  Focus focus;
  Typing typing;
  document::History history;
  std::optional<Pull> pull;
  Flash flash;                                  ///< Of what the last edit changed.
  std::optional<document::JobChoices> choices;  ///< While the page of jobs is open.
  std::optional<Work> work;                     ///< That takes more than a moment.
  std::optional<OpenJob> waiting;               ///< For the answer whether what is unsaved may be lost.
  std::vector<Handle> handles;                  ///< Of what is picked, as they were drawn last.
  std::optional<std::size_t> hovered_handle;
  CutHand cut;
  InputQueue input;
  Layout layout;
  std::optional<std::uint32_t> hovered_part;
  std::optional<Card> card;      ///< What the last frame explained.
  std::vector<Written> written;  ///< What it wrote in the drawing.
  std::vector<Rect> panels;      ///< The panels over the drawing, in the frame under way.

  /// What the lens shows, and what that was made for.
  struct LensMade {
    std::uint64_t version = 0;
    std::int32_t opening = -1;
    plan::Corner corner = plan::Corner::BL;
    bool inside = false;
    bool dark = false;
    float mm = 0.0F;
    bool operator==(const LensMade&) const = default;
  };
  std::optional<LensView> lens;
  LensMade lens_made;
  std::uint64_t lens_key = 0;

  std::optional<document::Taught> taught;       ///< What follows from the lesson.
  std::vector<scene::WaterLine> water;          ///< Where the water runs in it.
  std::optional<document::Lesson> taught_from;  ///< The lesson and the scene that `taught` is of.
  std::uint64_t taught_version = 0;
  float drop_seconds = 0.0F;         ///< For how long the drops have run.
  std::uint32_t exercise_round = 0;  ///< Each exercise is shuffled another way.

  bool instant = false;  ///< Flights arrive at once.
  bool placed = false;   ///< The eye has been put before the job.
  bool closing = false;
  int settle = 0;               ///< Frames still to be drawn after a change, for panels to find their sizes.
  float moving_seconds = 0.0F;  ///< The eye is taken to be moving for so long after a drag's move or a notch.
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

struct Screen {
  int width = 0;  ///< Pixels.
  int height = 0;
  float scale = 1.0F;  ///< Of the screen: 1 where 96 pixels are an inch.
};

/// Whether there is anything to draw or to take in.
[[nodiscard]] bool wantsFrame(const App& app, const Stage& stage);
/// The same but for what a lesson plays: once this is false, nothing else is to come.
[[nodiscard]] bool isUnsettled(const App& app, const Stage& stage);
/// Whether nothing is to come but the end of work beside the window.
[[nodiscard]] bool isOnlyWorking(const App& app, const Stage& stage);
/// Whether work is at the job, which can't be changed meanwhile.
[[nodiscard]] bool isHeld(const App& app);
/// One frame of `seconds` since the last. The picture is then in stage.target().
void frame(App& app, Stage& stage, const Screen& screen, float seconds);
/// Does what a person wished.
void grant(App& app, const Wish& wish);
/// The scene was built anew: parts that were pointed at may be others now.
void newScene(App& app);
/// Asks for pictures until everything has found its size.
void disturb(App& app);

/// Takes the text of the field in hand into the job. False: it was refused, and `typing.refusal` says why.
bool takeField(App& app);

/// The lesson's part of a frame (lesson_frame.cpp): time goes on, wishes are granted, and what follows is worked out
/// where the lesson or the scene has changed.
void playLesson(App& app, float seconds);
void grantLesson(App& app, const LessonWish& wish);
void moveLesson(App& app, std::int32_t opening);
void followLesson(App& app);
/// Whether cards or drops move.
[[nodiscard]] bool isLessonRunning(const App& app);

/// Changes the job by `change`, keeps it in the history under a name, and lets everything follow (editing.cpp).
/// Nothing changed: nothing is kept.
void edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change);
/// Everything that follows from the job, after it was changed.
void followJob(App& app);
void grantEdit(App& app, const EditWish& wish);

/// Other jobs (choosing.cpp): the page that offers them, and going over to one.
void toggleJobsPage(App& app);
void openJob(App& app, const OpenJob& wish);
/// Does what waits for an answer, without asking again.
void goOn(App& app);
/// Where those opened last are listed; empty: nowhere.
[[nodiscard]] std::filesystem::path openedList(const App& app);

/// The file (keeping.cpp): written, looked after while another program may change it, and unsaved edits kept beside it.
void rememberFile(App& app);
void saveJob(App& app);
/// Whether nothing unsaved would be lost, or the person has been asked; else asks.
[[nodiscard]] bool mayLose(App& app, Asking by);
/// Says a sentence above the foot.
void tell(App& app, std::string words, bool stops);
/// The recovery file is behind the job: it is written when the viewer comes to rest, or soon (keepInTime).
void keepSoon(App& app);
/// Writes the recovery file where it is behind and the viewer rests, or has been behind for as long as may be lost.
/// Called between pictures: a disk that is slow holds up no drag.
void keepInTime(App& app, bool resting);
void recover(App& app, bool take);
/// Reads the file again where it was changed elsewhere and nothing here would be lost.
void checkDisk(App& app);

/// Dragging handles (pull.cpp). `beginPull`: whether the pointer is on one. While a pull lasts, keys belong to it.
[[nodiscard]] bool beginPull(App& app, ImVec2 at, const Screen& screen);
void movePull(App& app, ImVec2 at, const Screen& screen);
void endPull(App& app);
void dropPull(App& app);
void followPullKeys(App& app, const InputStep& step);
void hoverHandle(App& app, ImVec2 at, const Screen& screen);
/// What a drag snaps to: whole millimetres; tenths with Shift held, the step that sizes come in with Ctrl.
[[nodiscard]] double pullStep(const App& app);
[[nodiscard]] render::Ray rayAt(const App& app, ImVec2 at, const Screen& screen);

/// The cutting plane (cut_hand.cpp): wished for, dragged by its handle, typed, nudged. `followCut`: the look's cut is
/// made anew from the figures, so that it goes with its wall.
void grantCut(App& app, const CutWish& wish);
void followCut(App& app);
[[nodiscard]] bool beginCutPull(App& app, ImVec2 at, const Screen& screen);
void moveCutPull(App& app, ImVec2 at, const Screen& screen);
void endCutPull(App& app);
void dropCutPull(App& app);
void followCutKeys(App& app, const InputStep& step);
void hoverCut(App& app, ImVec2 at, const Screen& screen);
void drawCut(App& app, const Ui& ui);

/// The pointer's and the keyboard's part of a frame (hand.cpp, keys.cpp, field.cpp).
void followPointer(App& app, const InputStep& step, const Screen& screen, std::vector<Wish>& wishes);
void followKeys(App& app, const InputStep& step, std::vector<Wish>& wishes);
/// Keys into the field that the keyboard is on. False: it is on none, and the keys are free.
[[nodiscard]] bool followField(App& app, const InputStep& step);
/// Takes in what was typed once the keyboard is no longer on its field.
void leaveField(App& app);

}  // namespace sillwright::view
