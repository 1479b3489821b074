/// Drawings on paper: a job's plan as sheets a person takes to the wall.
///
/// A cover with the verdicts; each wall's elevation, as seen from outside, with its set-out and its timber; for each
/// opening a sheet of two sides (front: as built, gaps, packers, screws, readings, findings; back: sections, flashings,
/// membrane); a blank measure sheet; and record sheets of what was set. One drawing function makes PDF,
/// SVG and PNG alike. A4; figures and words are the practice's.
///
/// Reproducible: the same job gives the same bytes. No clock is read.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/scene.h"
#include "sheet/paper/flat.h"
#include "words/text.h"

namespace sillwright::sheet {

/// Everything that sheets are drawn from; it must outlive the call. The plan, findings and scene are of this job.
struct Subject {
  const job::Job& job;
  const practice::Practice& practice;
  const plan::Plan& plan;
  const check::Findings& findings;
  const scene::Scene& scene;

  [[nodiscard]] practice::Display display() const { return practice.display; }
  [[nodiscard]] bool inches() const { return practice.display == practice::Display::InchFractions; }
  /// In the practice's unit, which a sheet says once.
  [[nodiscard]] std::string figure(double mm) const { return words::figure(mm, practice.display); }
  template <class... Sizes>
  [[nodiscard]] std::string figures(const Sizes&... sizes) const {
    return words::figures(sizes..., practice.display);
  }
};

enum class PaperSize { A4, Letter };
struct Handbook;

/// Which sheets. With an opening: its own sheets only; with a wall: its elevation only; with neither: all.
struct Wanted {
  const Handbook* handbook = nullptr;  ///< In their place this.
  PaperSize paper = PaperSize::A4;     ///< The handbook's: all else is laid out for A4.
  std::optional<std::size_t> opening;
  std::optional<std::size_t> wall;
  bool blank_records = false;  ///< A record sheet for every opening, to be filled in, whether or not it was set.
};

enum class Format { Pdf, Svg, Png };

inline constexpr double kDotsPerInch = 150;

/// Called at the start of each page with the number of pages done and the number in all (0 while they are being
/// counted). Returning false cancels the drawing.
using Progress = std::function<bool(std::size_t done, std::size_t pages)>;

/// Draws the sheets. PDF: one file; SVG and PNG: a file a page, in order. Throws std::runtime_error if the machine
/// can't (no typeface installed, no memory). Empty if `progress` cancelled it.
[[nodiscard]] std::vector<std::string> draw(const Subject& subject, const Wanted& wanted, Format format,
                                            double dots_per_inch = kDotsPerInch, const Progress& progress = {});

/// The same pages as values: the texts and dimensions on each, with their places.
[[nodiscard]] std::vector<PageLog> layOut(const Subject& subject, const Wanted& wanted = {});

// Words and figures as the sheets write them: the practice's words, bare figures (a sheet says once in what unit).

using words::capital;
using words::dateWords;
using words::figure;
using words::figures;
using words::jobWords;
using words::signedFigure;

/// "measured by tape", "measured by laser"; "not measured".
[[nodiscard]] std::string readBy(const job::Opening& opening);
/// "set 2026-03-14" where it says so, else readBy.
[[nodiscard]] std::string readingsDate(const job::Opening& opening);

/// "wind class N3: ultimate 0.9 kPa …" in one line.
[[nodiscard]] std::string windWords(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::sheet
