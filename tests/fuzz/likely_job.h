/// Jobs of the fuzzer's bytes: any that the reader's bounds allow, and, mostly, ones as a person would draw them, whose
/// openings lie in their walls and whose readings are near the plan, so that what follows has something to work on.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <optional>
#include <string>
#include <variant>

#include "fuzz/bytes.h"
#include "job/job.h"
#include "job/job_maker.h"
#include "practice/practice.h"

namespace sillwright::fuzz {

class LikelyJob {
 public:
  LikelyJob(Bytes& bytes, const practice::Practice& practice) : bytes_(bytes), practice_(practice), maker_(bytes) {}

  job::Job make() {
    job::Job job = maker_.job();
    addOpenings(job);
    nameWhatThePracticeHas(job);
    if (!bytes_.often()) return job;
    for (job::Wall& wall : job.walls) tame(wall);
    for (job::Opening& opening : job.openings) tame(opening, job.walls[opening.wall]);
    return job;
  }

 private:
  template <class List>
  const auto& oneOf(const List& list) {
    return list[bytes_.below(list.size())];
  }

  void addOpenings(job::Job& job) {
    for (std::size_t i = bytes_.below(4) == 1 ? bytes_.below(16) : 0; i > 0; --i) {
      job.openings.push_back(maker_.opening("more " + std::to_string(i)));
      job.openings.back().wall = bytes_.below(job.walls.size());
    }
  }

  /// Names that the practice doesn't have would only bring an error.
  void nameWhatThePracticeHas(job::Job& job) {
    job.practice = practice_.name;
    const auto& strength = practice_.strength;
    if (job.wind && std::holds_alternative<std::string>(*job.wind)) job.wind = oneOf(strength.wind.classes).name;
    for (job::Wall& wall : job.walls) {
      if (wall.timber) wall.timber = oneOf(strength.timber.grades).name;
    }
    for (job::Opening& opening : job.openings) {
      // As many to a row as there are: sizes by chance hardly ever come to the unit's.
      opening.unit.columns.clear();
      opening.unit.rows.clear();
      if (opening.unit.lights.size() == 1 ||
          (!opening.unit.lights.empty() && opening.unit.lights.front() == job::Light::Joined))
        opening.unit.lights.clear();
      if (opening.unit.width < 101.0 * static_cast<double>(opening.unit.lights.size())) opening.unit.lights.clear();
      if (opening.unit.fixing && opening.unit.fixing->screw) opening.unit.fixing->screw = oneOf(practice_.stock.screws);
    }
    if (!job.stock) return;
    for (std::string& screw : job.stock->screws) screw = oneOf(practice_.stock.screws);
  }

  void tame(job::Wall& wall) {
    wall.length = bytes_.within(600, 12'000);
    wall.top = {{0, height()}};
    for (std::size_t corners = bytes_.below(4), i = 1; i <= corners; ++i) {
      wall.top.push_back({wall.length * static_cast<double>(i) / static_cast<double>(corners + 1), height()});
    }
    wall.top.push_back({wall.length, bytes_.even() ? wall.top.front().z : height()});
    if (wall.stud) wall.stud = {pick({70, 90, 140}), pick({35, 38, 45})};
    if (wall.spacing) wall.spacing = pick({300, 450, 600});
    if (wall.supports) wall.supports = {bytes_.within(100, 6'000), bytes_.within(0, 5)};
  }

  void tame(job::Opening& opening, const job::Wall& wall) {
    opening.width = bytes_.within(300, 3'000);
    opening.height = bytes_.within(300, 2'400);
    opening.left = bytes_.within(0, std::max(1.0, wall.length - opening.width));
    opening.sill = bytes_.within(0, 1'200);
    opening.unit.width = std::max(100.0, opening.width - bytes_.within(-10, 60));
    opening.unit.height = std::max(100.0, opening.height - bytes_.within(-10, 60));
    if (opening.head) tameHead(opening);
    if (opening.unit.head) opening.unit.height = opening.unit.head->top();
    if (opening.unit.frame) opening.unit.frame = {pick({50, 100, 150}), pick({25, 45, 60})};
    if (opening.unit.reveal) opening.unit.reveal = {pick({16, 18, 25}), pick({90, 110, 150})};
    if (opening.measured) tame(*opening.measured, opening);
  }

  /// A head as a roof has it, and its unit's a little lower.
  void tameHead(job::Opening& opening) {
    job::Head& head = *opening.head;
    head.left = bytes_.within(0, 2'400);
    head.right = bytes_.within(300, 2'400);
    head.peak_x = head.peak_z = 0;
    if (bytes_.even()) {
      head.peak_x = opening.width * bytes_.within(0.2, 0.8);
      head.peak_z = std::max(head.left, head.right) + bytes_.within(50, 900);
    }
    opening.height = head.top();
    job::Head& of_unit = opening.unit.head.emplace(head);
    const double less = bytes_.within(-10, 60);
    of_unit.left = std::max(0.0, head.left - less);
    of_unit.right = std::max(100.0, head.right - less);
    if (head.peaked()) of_unit.peak_x = head.peak_x * opening.unit.width / opening.width;
    if (head.peaked()) of_unit.peak_z = head.peak_z - less;
  }

  void tame(job::Measured& measured, const job::Opening& opening) {
    const auto near = [this](auto& readings, double planned) {
      for (auto& reading : readings) {
        if (reading) reading = std::max(50.0, planned + bytes_.within(-15, 15));
      }
    };
    near(measured.widths, opening.width);
    near(measured.heights, opening.height);
    near(measured.diagonals, std::hypot(opening.width, opening.height));
    const auto small = [this](std::optional<double>& reading) {
      if (reading) reading = bytes_.within(-12, 12);
    };
    small(measured.out_of_level);
    for (auto* pair : {&measured.out_of_plumb, &measured.out_of_plumb_in}) {
      for (auto& reading : *pair) small(reading);
    }
  }

  double height() { return bytes_.within(2'000, 5'000); }
  double pick(std::initializer_list<double> sizes) { return *(sizes.begin() + bytes_.below(sizes.size())); }

  Bytes& bytes_;
  const practice::Practice& practice_;
  job::test::JobMaker<Bytes> maker_;
};

}  // namespace sillwright::fuzz
