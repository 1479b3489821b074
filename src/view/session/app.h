/// What the viewer knows: the job that is open, what is shown of it, and what a person has in hand.
///
/// Input and panels make wishes (shown.h); `grant` does them. Nothing here draws or needs a window: the frame
/// (window/frame.h) reads this state, and asks the functions of this sub-room to change it. The parts of the state that
/// change together are structs of their own; a function takes the parts that it needs, or the whole where an edit
/// reaches everything.
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/write_file.h"
#include "document/document.h"
#include "document/edits.h"
#include "document/exercise_file.h"
#include "document/jobs.h"
#include "document/recovery.h"
#include "document/step_view.h"
#include "scene/water_lines.h"
#include "view/session/field.h"
#include "view/session/hand.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"
#include "view/values/input.h"

namespace sillwright::view {

// Work that takes more than a moment, while the window goes on: what it is, how far it has come, and its end.
//
// Work without OpenGL runs beside the window on values of its own, and what it answers is done to the viewer in the
// viewer's thread. A picture is drawn by the frame (window/frame.h), once the words that announce it have been seen.

struct App;

/// How far work has come; written beside the window, read by it.
struct Steps {
  std::atomic<std::size_t> done{0};
  std::atomic<std::size_t> of{0};  ///< 0: not known.
  std::atomic<bool> stop{false};   ///< The person wants no more of it.
};

/// What is left to be done in the viewer's own thread.
using Then = std::function<void(App&)>;

struct Work {
  std::string title;           ///< "Drawing the sheets".
  std::string unit;            ///< "pages"; empty: its steps have no name.
  bool holds_job = false;      ///< The job can't be changed until it is done.
  bool can_stop = false;       ///< Escape ends it.
  std::future<Then> there;     ///< Runs beside the window.
  PictureSize picture;         ///< Or a picture to be drawn,
  std::filesystem::path file;  ///< into this file.
  std::shared_ptr<Steps> steps = std::make_shared<Steps>();
  int seen = 0;  ///< In how many frames it has been announced.
};

/// Starts work beside the window. What `task` throws is told to the person.
[[nodiscard]] Work besideWindow(std::string title, std::function<Then(Steps&)> task);

/// Takes in what work beside the window has done. Once a frame, before the panels.
void followWork(App& app);
/// "Drawing the sheets: 12 of 29 pages".
[[nodiscard]] std::string wordsFor(const Work& work);

/// The job's file: what was read of it, what is written, and what is kept beside it of unsaved edits.
struct JobFile {
  std::filesystem::path path;
  std::filesystem::path assets;
  std::vector<base::Error> errors;            ///< Why there is no document, or only the last good one.
  std::vector<std::string> lines;             ///< The file's own lines, for the error page.
  job::Job job;                               ///< As Document::text reads: every save starts from the two.
  base::Fingerprint on_disk;                  ///< Of what was last read or written.
  std::filesystem::file_time_type looked_at;  ///< Time of the file when the disk was last looked at.
  std::filesystem::path recovery;             ///< Folder of recovery files; empty: none are kept.
  std::filesystem::path pictures;             ///< Folder of small pictures of jobs; empty: none are kept.
  /// The job and its time when its small picture was last seen to: one that can't be written isn't drawn for ever.
  std::pair<std::filesystem::path, std::filesystem::file_time_type> pictured;
  std::optional<document::Recovery> found;  ///< Edits of an earlier run that were never saved,
  std::string found_says;                   ///< and what they change, and when that was.
  std::optional<float> stale_seconds;       ///< Since an edit that the recovery file doesn't hold.
};

/// What a lesson's opening would be without what is done wrong.
struct AsItShouldBe {
  document::Taught taught;
  std::vector<scene::WaterLine> water;
  scene::Scene scene;
};

/// A lesson in the viewer: its time, and what follows where the lesson or the scene has changed.
struct LessonPlay {
  std::optional<document::Taught> taught;  ///< What follows from the lesson.
  std::vector<scene::WaterLine> water;     ///< Where the water runs in it.
  std::optional<AsItShouldBe> right;       ///< While a what-if is on: shown beside it.
  std::optional<document::Lesson> from;    ///< The lesson and the scene that `taught` is of.
  std::uint64_t version = 0;
  std::optional<document::StepView> step;  ///< What the card is shown by; empty: the work as it stands.
  std::uint64_t step_version = 0;          ///< Of its scene; unlike for unlike ones.
  bool stepping = false;                   ///< Cards have been gone through since the lesson was opened.
  LessonCard card;                         ///< What the card says.
  float coming = 1.0F;                     ///< How far the step's parts have come; below 0 they wait for the eye.
  std::optional<scene::Scene> moved;       ///< The step's scene while they come.
  float drop_seconds = 0.0F;               ///< For how long the drops have run.
  std::uint32_t exercise_round = 0;        ///< Each exercise is shuffled another way.
  std::optional<document::ExerciseFile> exercise;  ///< That is on, or is to begin once its job is there.
  std::chrono::steady_clock::time_point began;     ///< When its cards were dealt.
};

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
  bool stops = false;            ///< It went wrong.
  std::filesystem::path file{};  ///< That was written: it can be opened, and a button alone doesn't clear it.
};

/// The job as it is, put by while the one that was saved last is shown.
struct PutBy {
  document::Document document;
  Shown shown;
};

inline constexpr float kFlashSeconds = 0.7F;
/// The picked opening's parts that are of another kind or size since the last edit: they light up for a moment. What
/// only moved along with what was dragged does not count: the hand knows that.
struct Flash {
  std::vector<std::uint32_t> parts{};  ///< Indices in Scene::parts.
  float left = 0.0F;                   ///< Seconds that it still shows.

  [[nodiscard]] bool on() const { return left > 0.0F && !parts.empty(); }
};

/// Going from one job to another.
struct JobsOffered {
  std::optional<document::JobChoices> choices;  ///< While the page of jobs is open.
  std::optional<OpenJob> waiting;               ///< For the answer whether what is unsaved may be lost.
};

struct App {
  JobFile file;
  std::optional<document::Document> document;
  std::optional<PutBy> put_by;
  std::uint64_t version = 0;  ///< Of the scene.
  document::History history;
  Shown shown;
  Notice notice;
  Eye eye;
  Pointed pointed;
  Hand hand;
  std::optional<Pull> pull;
  CutHandle cut;
  Focus focus;
  Typing typing;
  Flash flash;
  LessonPlay lesson;
  JobsOffered jobs;
  std::optional<Work> work;  ///< That takes more than a moment.
  std::optional<Menu> menu;  ///< The list that is open.
  InputQueue input;
  Layout layout;
  bool closing = false;
  int settle = 0;  ///< Frames still to be drawn after a change, for panels to find their sizes.
};

/// A viewer of the job at `path`; of none where that is empty: it shows which could be opened. A job that can't be read
/// is no reason to stop: the errors are shown.
[[nodiscard]] App open(const std::filesystem::path& path, const std::filesystem::path& assets,
                       const std::filesystem::path& recovery = {});
/// The job as it was saved last in place of the one on the screen, or that one again. Nothing can be done meanwhile.
void showSaved(App& app, bool saved);
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
  if (app.lesson.moved) return *app.lesson.moved;
  return app.lesson.step ? app.lesson.step->scene : app.document->scene;
}
/// Where the panels will lie once what is picked has its sheet.
[[nodiscard]] Canvas canvasOf(const App& app);
void flyTo(App& app, const render::Camera& camera, float seconds = kFlightSeconds);
/// The scene was built anew: parts that were pointed at may be others now.
void newScene(App& app);
/// Asks for pictures until everything has found its size.
void disturb(App& app);
/// Says a sentence above the foot.
void tell(App& app, std::string words, bool stops);
/// Changes the job by `change`, kept in the history under a name, with everything that follows. False: nothing changed,
/// or the job then asks for something that can't be read, which is told; nothing is kept.
bool edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change);
/// Works out what follows from the job, after it was changed.
void followJob(App& app);
/// To where `place` steps of the history are done. It stays where it is, and says so, where the job there asks for
/// something that can't be read.
void goInHistory(App& app, std::size_t place);
void grantEdit(App& app, const EditWish& wish);
void setKey(App& app, const SetKey& wish);
void grantLight(App& app, const LightWish& wish);
/// Empty: the key has no field in sight.
[[nodiscard]] std::optional<Menu> menuOf(const App& app, const OpenList& wish);

/// Notes what was just read, and looks for edits of an earlier run.
void rememberFile(App& app);
/// Writes the job into its file. Asks first where another program has changed that; asked, and with `over`, it keeps
/// the other version beside the file.
void saveJob(App& app, bool over = false);
/// Writes the job into another file and goes on in that. Answers why not; empty: it is done.
[[nodiscard]] std::string saveAs(App& app, const std::filesystem::path& path);
/// Whether nothing unsaved would be lost, or the person has been asked; else asks.
[[nodiscard]] bool mayLose(App& app, Asking by);
/// The recovery file is behind the job: it is written when the viewer comes to rest, or soon (keepInTime).
void keepSoon(JobFile& file);
/// Writes the recovery file where it is behind and the viewer rests, or has been behind for as long as may be lost.
/// Called between pictures: a disk that is slow holds up no drag.
void keepInTime(App& app, bool resting);
/// Takes up the edits of an earlier run, or forgets them.
void recover(App& app, bool take);
/// Reads the file again where it was changed elsewhere and nothing here would be lost.
void checkDisk(App& app);

void grantLesson(App& app, const LessonWish& wish);
/// Deals the cards of the exercise that was opened, once its job is there.
void beginExercise(App& app);
/// Goes over to another opening.
void moveLesson(document::Lesson& lesson, const document::Document& document, std::int32_t opening);
/// Whether nothing answered in an exercise that isn't solved would be lost, or the person has been asked; else asks.
[[nodiscard]] bool mayLeaveExercise(App& app);
/// Teaches again where the lesson or the scene is another.
void followLesson(App& app);
/// Time goes on.
void playLesson(document::Lesson& lesson, LessonPlay& play, float seconds);
/// Puts the step's parts where they are by now.
void followComing(App& app);
/// For how long the card lies while the lesson plays at its usual pace, or its water is watched.
[[nodiscard]] float cardSeconds(const document::Lesson& lesson, const LessonPlay& play);
/// Whether drops are to be seen: while cards are played, and in a class room, only when they are watched.
[[nodiscard]] bool showsWater(const document::Lesson& lesson);
/// Whether the picture changes by itself: parts come, or drops run.
[[nodiscard]] bool isLessonMoving(const document::Lesson& lesson, const LessonPlay& play);
/// Whether cards or drops move.
[[nodiscard]] bool isLessonRunning(const document::Lesson& lesson, const LessonPlay& play);

/// What a person takes away, each written beside the job under a name that nothing has yet. A picture is announced; the
/// frame then draws it.
void takePicture(App& app, const TakePicture& wish);
void takeSheets(App& app, const TakeSheets& wish);
void takeFile(App& app, const TakeFile& wish);
void takeResult(App& app);
/// By the desktop's own opener, which is run without a shell.
void openFile(App& app, const OpenFile& wish);
/// "N1" of an opening's name: what of it can stand in a file's name.
[[nodiscard]] std::string fileWord(const std::string& name);
/// The picked opening's name, else the picked wall's; empty: neither is picked.
[[nodiscard]] std::string nameOfPicked(const App& app);

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

/// Where the jobs opened last are listed; empty: nowhere.
[[nodiscard]] std::filesystem::path openedList(const JobFile& file);
/// Other jobs: the page that offers them, and going over to one.
void toggleJobsPage(App& app);
void openJob(App& app, const OpenJob& wish);
/// Does what waits for an answer, without asking again.
void goOn(App& app);

}  // namespace sillwright::view
