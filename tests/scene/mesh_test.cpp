#include <cmath>
#include <filesystem>
#include <fstream>

#include "made.h"
#include "scene/mesh/mesh.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

/// The lines of all errors of a text; empty where it is read.
std::string errorsOf(const std::string& text) {
  const base::Result<Mesh> read = readMesh(text, "m.obj");
  CHECK(read.ok() == read.errors.empty());
  std::string all;
  for (const base::Error& error : read.errors) all += base::toLine(error) + "\n";
  return all;
}

/// A cube of side 10 as quads, from the OBJ specification's own way of writing one (appendix B1, "Advanced
/// Visualizer").
const std::string kCube =
    "# a cube\no box\nv 0 0 0\nv 10 0 0\nv 10 10 0\nv 0 10 0\nv 0 0 10\nv 10 0 10\nv 10 10 10\nv 0 10 10\n"
    "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";

/// Twice the surface, and six times the volume, of what the triangles enclose.
double areaOf(const Mesh& mesh) {
  double sum = 0;
  for (std::size_t i = 0; i < mesh.corner.size(); i += 3) {
    sum += static_cast<double>(
               glm::length(glm::cross(mesh.corner[i + 1] - mesh.corner[i], mesh.corner[i + 2] - mesh.corner[i]))) /
           2;
  }
  return sum;
}

double volumeOf(const Mesh& mesh) {
  double sum = 0;
  for (std::size_t i = 0; i < mesh.corner.size(); i += 3) {
    sum += static_cast<double>(glm::dot(mesh.corner[i], glm::cross(mesh.corner[i + 1], mesh.corner[i + 2]))) / 6;
  }
  return sum;
}

double lineLength(const Mesh& mesh) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < mesh.line.size(); i += 2) {
    sum += static_cast<double>(glm::distance(mesh.line[i], mesh.line[i + 1]));
  }
  return sum;
}

}  // namespace

TEST_CASE("a cube of quads is read: twelve triangles, twelve inked edges") {
  const base::Result<Mesh> read = readMesh(kCube, "m.obj");
  REQUIRE(read.ok());
  CHECK(read.value->corner.size() == 36);
  CHECK(read.value->line.size() == 24);
  CHECK(areaOf(*read.value) == Approx(600));
  CHECK(volumeOf(*read.value) == Approx(1000));
  CHECK(lineLength(*read.value) == Approx(120));
  const Box box = boxRound(read.value->corner);
  CHECK(box.low == glm::vec3(0));
  CHECK(box.high == glm::vec3(10));
}

TEST_CASE("corners may be counted backwards, carry textures and normals, and lines may end in any way") {
  std::string backwards = kCube.substr(0, kCube.find("f 4"));
  backwards +=
      "f -5/1 -6/2 -7/3 -8/4\nf -4//1 -3//1 -2//1 -1//1\nf 1/1/1 2/1/1 6/1/1 5/1/1\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";
  for (const char* end : {"\n", "\r\n", "\r"}) {
    std::string text;
    for (const char c : backwards) text += c == '\n' ? std::string(end) : std::string(1, c);
    const base::Result<Mesh> read = readMesh(text, "m.obj");
    REQUIRE(read.ok());
    CHECK(volumeOf(*read.value) == Approx(1000));
  }
}

TEST_CASE("a face may name vertices that follow it") {
  const base::Result<Mesh> read = readMesh("f 1 2 3\nv 0 0 0\nv 1 0 0\nv 0 1 0\n", "m.obj");
  REQUIRE(read.ok());
  CHECK(areaOf(*read.value) == Approx(0.5));
}

TEST_CASE("a face that turns in on itself is cut inside its outline") {
  // An L of area 3, written from each of its corners in turn.
  for (int first = 0; first < 6; ++first) {
    std::string text = "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\nf";
    for (int i = 0; i < 6; ++i) text += " " + std::to_string((first + i) % 6 + 1);
    const base::Result<Mesh> read = readMesh(text, "m.obj");
    REQUIRE(read.ok());
    CHECK(read.value->corner.size() == 12);
    CHECK(areaOf(*read.value) == Approx(3));
    CHECK(read.value->line.size() == 12);  // its border alone
  }
}

TEST_CASE("ink runs where faces turn by more than 30 degrees, and along borders") {
  for (const double degrees : {0.0, 29.0, 31.0, 90.0}) {
    const double turn = degrees * 3.14159265358979 / 180;
    const std::string text = "v 0 0 0\nv 0 10 0\nv -10 10 0\nv -10 0 0\nv " + std::to_string(10 * std::cos(turn)) +
                             " 0 " + std::to_string(10 * std::sin(turn)) + "\nv " +
                             std::to_string(10 * std::cos(turn)) + " 10 " + std::to_string(10 * std::sin(turn)) +
                             "\nf 1 2 3 4\nf 2 1 5 6\n";
    const base::Result<Mesh> read = readMesh(text, "m.obj");
    REQUIRE(read.ok());
    INFO(degrees);
    CHECK_THAT(lineLength(*read.value), WithinAbs(degrees > 30 ? 70 : 60, 1e-3));
  }
}

TEST_CASE("vertices written twice at one place count as one for the ink") {
  const std::string flat = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 1 0 0\nv 2 0 0\nv 1 1 0\nf 1 2 3\nf 4 5 6\n";
  const base::Result<Mesh> read = readMesh(flat, "m.obj");
  REQUIRE(read.ok());
  CHECK(read.value->line.size() == 8);  // the shared edge isn't inked
}

TEST_CASE("what is wrong in an OBJ is said at its line") {
  const std::string three = "v 0 0 0\nv 1 0 0\nv 0 1 0\n";
  CHECK(errorsOf("") == "m.obj: no faces; an OBJ needs lines that begin with f\n");
  CHECK(errorsOf("<html>not a mesh</html>\n") == "m.obj: no faces; an OBJ needs lines that begin with f\n");
  CHECK(errorsOf(three) == "m.obj: no faces; an OBJ needs lines that begin with f\n");
  CHECK(errorsOf(three + "f 1 2 4\n") == "m.obj:4:1: vertex 4 does not exist; the file has 3\n");
  CHECK(errorsOf(three + "f 1 2 -4\n") == "m.obj:4:1: vertex -4 does not exist; 3 stand before this line\n");
  CHECK(errorsOf(three + "f 0 1 2\n") == "m.obj:4:1: vertices are counted from 1, found 0\n");
  CHECK(errorsOf(three + "f 1 2\n") == "m.obj:4:1: a face needs three corners or more, found 2\n");
  CHECK(errorsOf(three + "f 1 2 x\n") == "m.obj:4:1: \"x\" is not a face's corner; it is the number of a vertex\n");
  CHECK(errorsOf(three + "f 1 2 3.5\n") == "m.obj:4:1: \"3.5\" is not a face's corner; it is the number of a vertex\n");
  // More slashes than two made the loader see a corner that no vertex stands for, past the end of all vertices.
  CHECK(errorsOf(three + "f 2 2 2///") == "m.obj:4:1: \"2///\" is not a face's corner; it is the number of a vertex\n");
  CHECK(errorsOf(three + "f 1 2 3/x\n") == "m.obj:4:1: \"3/x\" is not a face's corner; it is the number of a vertex\n");
  CHECK(errorsOf(three + "f 1 2 99999999999999999999\n") ==
        "m.obj:4:1: \"99999999999999999999\" is not a face's corner; it is the number of a vertex\n");
  CHECK(errorsOf("v 0 nan 0\n") == "m.obj:1:1: \"nan\" is not a finite number\n");
  CHECK(errorsOf("v 0 0 -inf\n") == "m.obj:1:1: \"-inf\" is not a finite number\n");
  CHECK(errorsOf("v 0 1e999 0\n") == "m.obj:1:1: \"1e999\" is not a finite number\n");
  // The loader multiplies nothing by an overflowing power of ten and has no number.
  CHECK(errorsOf("v 0 0e794 0\n") ==
        "m.obj:1:1: \"0e794\" is a number in a form that is not read: at most 64 characters, an exponent of at most "
        "99\n");
  CHECK(errorsOf("v 0." + std::string(62, '0') + "1e63 0 0\n").find("in a form that is not read") != std::string::npos);
  CHECK(errorsOf("v 0 1,5 0\n") == "m.obj:1:1: \"1,5\" is not a finite number\n");
  CHECK(errorsOf("v 0 0\n") == "m.obj:1:1: a vertex needs three numbers, found 2\n");
  CHECK(errorsOf("v 0 0 2e6\n") == "m.obj:1:1: a vertex lies further than 1000000 mm from the origin: 2e6\n");
  CHECK(errorsOf(three + std::string("f 1 2 3\0\n", 9)) == "m.obj:4:1: this is not text; an OBJ is a text file\n");
  CHECK(errorsOf("v 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 3\n") == "m.obj: none of the faces has any area\n");
  std::string round = three + "f";
  for (int i = 0; i < 257; ++i) round += " 1";
  CHECK(errorsOf(round) == "m.obj:4:1: a face may have 256 corners at most, found 257\n");
  CHECK(errorsOf("v 0 0 x\nv 1 y 0\n") ==
        "m.obj:1:1: \"x\" is not a finite number\nm.obj:2:1: \"y\" is not a finite number\n");
}

TEST_CASE("a mesh of too many triangles is refused, and errors stop at twenty") {
  std::string many = "v 0 0 0\nv 1 0 0\nv 0 1 0\n";
  std::string face = "f";
  for (int i = 0; i < 256; ++i) face += " " + std::to_string(i % 3 + 1);
  for (std::size_t i = 0; i <= kMostTriangles / 254; ++i) many += face + "\n";
  CHECK(errorsOf(many).find("more than 2000000 triangles") != std::string::npos);
  std::string bad;
  for (int i = 0; i < 100; ++i) bad += "v x\n";
  CHECK(readMesh(bad, "m.obj").errors.size() == 20);
}

TEST_CASE("no beginning of a good file is read as something else than a mesh or an error") {
  for (std::size_t length = 0; length < kCube.size(); ++length) {
    const base::Result<Mesh> read = readMesh(std::string_view(kCube).substr(0, length), "m.obj");
    REQUIRE(read.ok() == read.errors.empty());
    if (read.ok()) CHECK(read.value->corner.size() % 3 == 0);
  }
}

TEST_CASE(
    "faces that cross themselves are cut as far as that is soon done, and refused in a sentence where they are many") {
  // A star of 255 corners that are walked in steps of 127: each edge crosses nearly all others.
  std::string text;
  for (int i = 0; i < 255; ++i) {
    const double angle = i * 2 * 3.14159265358979 / 255;
    text += "v " + std::to_string(100 * std::cos(angle)) + " 0 " + std::to_string(100 * std::sin(angle)) + "\n";
  }
  std::string face = "f";
  for (int i = 0; i < 255; ++i) face += " " + std::to_string(1 + i * 127 % 255);
  CHECK(readMesh(text + face + "\n", "m.obj").ok());
  for (int i = 0; i < 7000; ++i) text += face + "\n";
  const base::Result<Mesh> read = readMesh(text, "m.obj");
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].say.starts_with("too many faces cross themselves"));
}

TEST_CASE("what the machine refuses is one error without a line") {
  const std::filesystem::path folder = std::filesystem::temp_directory_path();
  const auto error = [](const std::filesystem::path& path) {
    const base::Result<Mesh> read = readMeshFile(path);
    REQUIRE(read.errors.size() == 1);
    CHECK(read.errors[0].at.line == 0);
    return read.errors[0].say;
  };
  CHECK(error(folder / "sillwright-no-such-mesh.obj") == "there is no such file");
  CHECK(error(folder) == "is a folder, not a file");
}

TEST_CASE("the program's own meshes are closed, and as large as they say") {
  const MeshLibrary& library = ownMeshes();
  for (const char* name : {kScrewMesh, kHandleMesh, kCatchMesh, kHingeMesh}) {
    INFO(name);
    REQUIRE(library.mesh.count(name) == 1);
    CHECK(volumeOf(library.mesh.at(name)) > 0);
    CHECK(library.mesh.at(name).line.size() > 20);
  }
  const Box screw = boxRound(library.mesh.at(kScrewMesh).corner);
  CHECK(screw.low.y == 0);
  CHECK(screw.high.y == 75);
  // 8 gauge: head about twice the shank's 4.2 (from memory).
  CHECK_THAT(screw.high.x - screw.low.x, WithinAbs(8.4, 1e-3));
  CHECK(boxRound(library.mesh.at(kHandleMesh).corner).low.y == 0);
  CHECK(boxRound(library.mesh.at(kCatchMesh).corner).low.y == 0);
}

TEST_CASE("a unit's bad mesh is told at its line of the job, once for each unit, and the rest are loaded") {
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "sillwright-mesh-test";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "good.obj") << kCube;
  std::ofstream(folder / "bad.obj") << "v 0 0\n";
  job::Job job;
  job.file = "j.toml";
  for (const char* name : {"bad.obj", "good.obj", "bad.obj", "none.obj"}) {
    job::Opening opening;
    opening.unit.mesh = name;
    opening.unit.mesh_place = {static_cast<std::uint32_t>(10 + job.openings.size()), 3};
    job.openings.push_back(opening);
  }
  MeshLibrary library;
  const std::vector<base::Error> errors = loadMeshes(library, SILLWRIGHT_ASSETS_DIR, job, folder);
  REQUIRE(errors.size() == 3);
  const std::string in = folder.generic_string();
  CHECK(base::toLine(errors[0]) ==
        "j.toml:10:3: opening[0].unit.mesh: " + in + "/bad.obj: line 1: a vertex needs three numbers, found 2");
  CHECK(base::toLine(errors[1]).find("j.toml:12:3: opening[2].unit.mesh: ") == 0);
  CHECK(base::toLine(errors[2]) == "j.toml:13:3: opening[3].unit.mesh: " + in + "/none.obj: there is no such file");
  CHECK(checkMeshes(job, folder) == errors);
  CHECK(library.mesh.count("good.obj") == 1);
  CHECK(library.mesh.count("bad.obj") == 0);
  CHECK(library.mesh.count(kScrewMesh) == 1);
  std::filesystem::remove_all(folder);
}
