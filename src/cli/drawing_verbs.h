/// The verbs that draw with OpenGL, and the viewer.
#pragma once

#include "cli/verbs.h"
#include "view/window/picture.h"

namespace sillwright::cli {

struct PictureOptions {
  How how;
  std::filesystem::path job, out;
  std::string view, size = "1600x1000", cut, what_if;
  std::vector<std::string> hide;
  bool bare = false, panels = false;
  view::PictureOptions drawn;  ///< Where what is above goes once it is read; the rest is parsed there.

  void describe(auto& verb) {
    verb("--out", out, "The PNG to write")->required();
    verb("--opening", drawn.opening, "The opening to look at, by name");
    verb("--view", view,
         "house, outside, inside, above, left end, right end; of an opening also head, sill, jamb, corner; "
         "without it the house, or where a step is best seen");
    verb("--size", size, "Width and height in pixels");
    verb("--hide", hide, "Layers to leave out, by name (cladding, lining; or the practice's own word)")->delimiter(',');
    verb("--spread", drawn.spread, "Pull the layers apart by this many mm")->check(verb.within(0, 2000));
    verb("--cut", cut,
         "Cut by a plane, mm in the wall's axes: x=1200 along the wall, y=45 into the building, z=900 up; the "
         "near side is left out. Without --opening, in the axes of the floor plan");
    verb("--step", drawn.step, "The work after this many steps of the opening's order of work");
    verb("--water", drawn.water, "Where the water runs over membrane and flashings");
    verb("--what-if", what_if,
         "Where the water would run: 'swap A, B'; 'without A'; 'without step S'; 'shorten A 40'; several with ';'");
    verb("--magnify", drawn.magnify, "Draw gaps and out-of-square this many times as large; figures stay true")
        ->check(verb.within(1, 20));
    verb("--panels", panels, "The viewer's whole screen, with its panels, under the job's own rule set");
    verb("--dark", drawn.dark, "On a dark ground");
    verb("--bare", bare, "Without labels, dimensions and title");
  }
};
int picture(const PictureOptions& options);

/// Reads "1600x1000". Refuses what is none such.
void readSize(const std::string& size, int& width, int& height);

struct FilmOptions {
  How how;
  std::filesystem::path job, out;
  std::string opening, size = "1280x720", steps;
  std::optional<int> fps;
  view::FilmOptions drawn;  ///< As in PictureOptions.

  void describe(auto& verb) {
    verb.footer("The film is packed by the program ffmpeg, which has to be installed.");
    verb("--out", out, "The .webm, .mp4 or .gif to write")->required();
    verb("--opening", opening, "The opening whose order of work it shows")->required();
    verb("--steps", steps, "Only these, 4-8 say");
    verb("--size", size, "Width and height in pixels, even numbers");
    verb("--fps", fps, "Pictures a second; without it 25, of a gif 10")->check(verb.within(1, 60));
    verb("--pace", drawn.pace, "How fast it plays: 1 as fast as the cards are read, 2 twice as fast")
        ->check(verb.within(0.25, 4));
    verb("--dark", drawn.dark, "On a dark ground");
  }
};
/// The order of work at an opening as a film, each card for as long as it takes to read.
int film(const FilmOptions& options);

struct HandbookOptions {
  How how;
  std::filesystem::path job, out;
  std::string opening, paper = "a4";
  bool crew = false;

  void describe(auto& verb) {
    verb("--out", out, "The .pdf to write")->required();
    auto* only = verb("--opening", opening, "The steps of this opening");
    verb("--crew", crew, "The whole job in the crew's order, steps that are alike once")->excludes(only);
    verb("--paper", paper, "Size of the pages", {"a4", "letter"});
  }
};
/// The order of work as a book, a picture a step.
int handbook(const HandbookOptions& options);

/// The window. Empty: it offers jobs to open.
int viewer(const std::filesystem::path& job);

}  // namespace sillwright::cli
