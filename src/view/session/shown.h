/// What is shown and what a person can ask for: the two halves of every panel and every key.
///
/// Panels and keys read `Shown` and answer with wishes; only the viewer (app.h) grants them. So each thing can be asked
/// for by hand, by key and by a test in the same words.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "check/finding.h"
#include "document/lesson.h"
#include "job/keys.h"
#include "render/camera.h"
#include "render/renderer.h"
#include "scene/scene.h"
#include "view/values/camera_control.h"
#include "view/values/dimension.h"

namespace sillwright::view {

/// What would lose typed readings, and so is asked about first.
enum class Asking : std::uint8_t {
  Nothing,
  Close,
  ReadAgain,
  SaveOver,      ///< Another program has changed the file since it was read.
  Recover,       ///< Edits of another time were never saved.
  OpenOther,     ///< Another job is to be opened in its place.
  LeaveExercise  ///< Something was answered in an exercise that is to be left.
};

/// Of a picture that is to be taken, pixels.
struct PictureSize {
  int width = 1920;
  int height = 1080;
};
inline constexpr int kSmallestPicture = 16;   ///< Pixels a side.
inline constexpr int kLargestPicture = 8192;  ///< Pixels a side.

struct Shown {
  render::Camera camera;
  render::Look look;
  std::int32_t wall = -1;     ///< Picked wall; that of the picked opening where one is.
  std::int32_t opening = -1;  ///< Picked opening, −1: none.
  std::size_t trouble = 0;    ///< Which of what stands against the picked opening its sheet says first.
  float text_scale = 1.0F;
  bool labels = true;
  std::optional<plan::Corner> lens;  ///< The corner of the picked opening that the lens shows.
  bool layers_open = false;
  bool history_open = false;
  document::Lesson lesson;
  Measuring measuring;
  Cutting cutting;  ///< `look.cut` follows it.
  bool keys_open = false;
  bool jobs_open = false;
  bool paper_open = false;
  bool job_open = false;   ///< The page of the job's own keys and its stock.
  bool unit_open = false;  ///< All keys of the unit, in its opening's sheet.
  PictureSize picture_size;
  std::string trainee;       ///< Whose exercise it is.
  std::string new_practice;  ///< Of a new job; empty: that of the job on the screen.
  Asking asking = Asking::Nothing;
  bool folded = false;       ///< The panels at the sides are put away.
  bool full_screen = false;  ///< The window is over all of the screen.
  int tour = -1;             ///< Which of its stops the first start's tour is at; −1: none is on.
};

inline constexpr int kTourStops = 5;
/// What a stop of the tour wants done, and how.
struct TourWords {
  const char* what;
  const char* how;
};
[[nodiscard]] TourWords tourWords(int stop);

/// Whether a page lies over everything: pointer and keys are then its own.
[[nodiscard]] inline bool isModal(const Shown& shown) {
  return shown.keys_open || shown.jobs_open || shown.paper_open || shown.job_open || shown.asking != Asking::Nothing;
}

inline constexpr float kLeastTextScale = 0.75F;
inline constexpr float kMostTextScale = 2.0F;
inline constexpr float kMostSpread = 400.0F;  ///< mm

/// Pick a wall or an opening (−1: let go), and fly to it or stay.
struct PickWall {
  std::int32_t wall = -1;
  bool fly = true;
};
struct PickOpening {
  std::int32_t opening = -1;
  bool fly = true;
};
/// The next opening of the job, or the one before.
struct PickNeighbour {
  bool backwards = false;
};
struct Stand {
  StandingView view = StandingView::House;
};
/// Fly to the spot that a finding of the picked opening names.
struct SeeSpot {
  check::Spot spot;
};
/// Go on among what stands against the picked opening, or back, and fly to where it is.
struct NextTrouble {
  int by = 1;
};
struct ToggleLayer {
  scene::Layer layer = scene::Layer::Cladding;
};
struct ShowAllLayers {};
struct ScaleText {
  float factor = 1.0F;
};  ///< 0: back to 1.
struct ToggleDark {};
/// Show or hide what a member of Shown says of itself: a panel, a page, the labels.
struct Toggle {
  bool Shown::*what = &Shown::labels;
};
/// As a drag of so many pixels about the target, or sliding with it.
struct Turn {
  float x = 0.0F, y = 0.0F;
  bool slide = false;
};
struct Near {
  float factor = 1.0F;
};  ///< Towards the target.
/// Take back the last thing done; do it again.
struct TakeBack {};
struct DoAgain {};
/// To where so many steps of the history are done.
struct GoInHistory {
  std::size_t place = 0;
};
/// Measure between two places that are picked next, or leave off.
struct ToggleMeasuring {};
/// A change of the job that is neither a reading nor a drag.
enum class EditAct : std::uint8_t {
  Set,         ///< `dimension` to `value`.
  AddOpening,  ///< To wall `of`.
  CopyOpening,
  RemoveOpening,
  AddWall,
  RemoveWall  ///< With its openings; the last wall stays.
};
struct EditWish {
  EditAct act = EditAct::Set;
  std::size_t of = 0;
  Dimension dimension{};
  double value = 0;
};
/// A key of the job, to what the file would spell; empty: left out.
struct SetKey {
  job::KeyPlace place;
  std::string text;
};
/// One light of a unit: filled, divided by a mullion, or a row of fixed ones over its row.
enum class LightAct : std::uint8_t { Fill, Mullion, Transom };
struct LightWish {
  std::size_t opening = 0, row = 0, column = 0;
  LightAct act = LightAct::Fill;
  job::Light filled{};
};
/// A list at a pixel of what can be done with what lies under it; of a group of commands, what can fill a light, or
/// what a key may be.
struct OpenList {
  glm::vec2 at{0.0F};
  std::optional<std::size_t> group{};
  std::optional<LightWish> light{};
  std::optional<job::KeyPlace> key{};  ///< The list then opens at its field.
};
/// Draw deviations so many times as large; 0: the next of the steps.
struct Magnify {
  double times = 1.0;
};
/// Pull the layers apart by so many mm; below 0: the next of the steps.
struct PullApart {
  float spread = -1.0F;
};
/// The lens on the next corner of the picked opening; after the last it is put away.
struct NextLens {};
/// What can be asked of the cutting plane.
enum class CutAct : std::uint8_t {
  Next,   ///< The next axis, through the middle of what is picked; after the last one, no cut.
  Along,  ///< `axis`, through the middle of what is picked.
  Turn,   ///< The other side is taken away.
  Hold,   ///< Taken in hand by keys, to be typed or nudged.
  Off
};
struct CutWish {
  CutAct act = CutAct::Next;
  CutAxis axis = CutAxis::X;
};
/// What can be asked of the lesson.
enum class LessonAct : std::uint8_t {
  OpenOrClose,
  Go,         ///< To `value` cards done.
  Step,       ///< On by `value` cards.
  Play,       ///< Or rest.
  Pace,       ///< Faster by `value` steps, or slower.
  Loop,       ///< Begin again after the last card, or not.
  ClassRoom,  ///< The drawing alone with the card's words, or the panels again.
  Drops,      ///< Let them run, or not.
  Choose,     ///< Open or close the list of what-ifs.
  About,      ///< Only those about the sheet `value` of the skin; of the same again, or of none: all.
  Try,        ///< `what_if`; once more: put it right again.
  PutBack,    ///< Everything as it should be.
  Exercise,   ///< Shuffle the cards; once more: leave off.
  TakeCard,   ///< The card at place `value` (from 0) in hand; with one in hand: put it there.
  Pick,       ///< Option `value % document::kMostOptions` of question `value / document::kMostOptions`.
  Answer,     ///< Answer for it as it lies.
  Again       ///< From the start, shuffled another way.
};
struct LessonWish {
  LessonAct act = LessonAct::OpenOrClose;
  int value = 0;
  std::optional<plan::WhatIf> what_if{};
};
/// Write the job into its file; asks first where another program has changed that. `over` is the answer: the other
/// program's version is kept beside the file.
struct Save {
  bool over = false;
};
/// Of edits that were never saved: restore them, or forget them.
struct Recover {
  bool take = true;
};
/// The page of jobs to open and to begin.
struct ToggleJobsPage {};
/// Whose rules a new job follows.
struct ChoosePractice {
  std::string name;
};
/// Open a job; with a starter: write that into `file` first, by the rules of `practice`. Asks where something typed
/// would be lost.
struct OpenJob {
  std::filesystem::path file;
  std::filesystem::path starter{};
  std::string practice{};
};
/// A picture of the view as it stands, written beside the job; pixels, brought within bounds.
using TakePicture = PictureSize;
/// Sheets as one PDF beside the job: of an opening, of a wall, or all.
struct TakeSheets {
  std::int32_t opening = -1;
  std::int32_t wall = -1;
  bool records = false;  ///< With blank record sheets.
};
/// What else is written beside the job: lists as a workbook, the model as glTF or IFC, the page for a phone.
enum class FileKind : std::uint8_t { Lists, Model, Building, Page };
struct TakeFile {
  FileKind kind = FileKind::Lists;
};
/// The result of the exercise as a page, in the folder that the program was started in.
struct TakeResult {};
/// A file that was written, opened as this desktop opens its kind.
struct OpenFile {
  std::filesystem::path file;
};
/// What was asked about is to be done, whatever is lost.
struct GoOn {};
/// No more of the tour.
struct SkipTour {};
/// Both ask first where something typed would be lost; asked for again, they do it.
struct ReadAgain {};
struct Close {};
/// Neither.
struct Stay {};

using Wish = std::variant<PickWall, PickOpening, PickNeighbour, Stand, SeeSpot, NextTrouble, ToggleLayer, ShowAllLayers,
                          ScaleText, ToggleDark, Toggle, Turn, Near, TakeBack, DoAgain, GoInHistory, ToggleMeasuring,
                          EditWish, SetKey, Save, Recover, Magnify, PullApart, NextLens, CutWish, LessonWish,
                          ToggleJobsPage, ChoosePractice, OpenJob, TakePicture, TakeSheets, TakeFile, TakeResult,
                          OpenFile, LightWish, OpenList, GoOn, SkipTour, ReadAgain, Close, Stay>;
using Wishes = std::vector<Wish>;

/// Groups of commands along the foot: a list each, its most used words beside its name.
inline constexpr std::array kCommandGroups{"View …", "Opening …", "Look inside …", "Work …", "Job …", "Window …"};
inline constexpr std::size_t kLessonKeys = kCommandGroups.size();  ///< The group of those that are a lesson's own.
/// A wish that has a key, a word in a group's list, or both.
struct Command {
  const char* key;   ///< "F", "Ctrl O"; a single character is that which is typed. Empty: it has none.
  const char* word;  ///< In its group's list; empty: it has none there.
  Wish wish;
  std::size_t group = 0;  ///< Of kCommandGroups, or kLessonKeys.
  bool common = false;    ///< Its word stands along the foot too.
};
/// All of them, those with a word in the order of their groups.
[[nodiscard]] const std::vector<Command>& commands();

/// One of the things that a list offers.
struct Offer {
  std::string word;
  std::string key;
  Wishes wishes;
};
/// A list that is open at a place of the window.
struct Menu {
  glm::vec2 at{0.0F};
  bool upwards = false;  ///< Its foot is at that place; else its top.
  std::string title;
  std::vector<Offer> offers;
  float least_width = 0.0F;
  std::uint32_t from = 0;  ///< The item whose list it is; 0: none.
};

/// Share of a class room's picture that the card has, along its foot.
inline constexpr float kClassCard = 0.27F;
/// Slower than a drop falls, to be followed by eye; mm a second.
inline constexpr float kDropSpeed = 450.0F;

/// What the card of a lesson says to a class.
struct LessonCard {
  std::string title;
  std::string what;
  std::string why;
};

/// What of a picture a class room's card leaves to the drawing.
[[nodiscard]] inline Canvas classCanvas(const Canvas& canvas) {
  return {.width = canvas.width, .height = canvas.height, .bottom = canvas.height * kClassCard};
}

}  // namespace sillwright::view
