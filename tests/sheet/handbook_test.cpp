// The handbook's pages: every step with its check and its caution, four to six a page, on either paper.

#include "sheet/handbook.h"

#include <cmath>

#include "drawn.h"
#include "plan/work/order_of_work.h"

using namespace sillwright;

namespace {

/// A handbook of all openings, with small grey pictures.
sheet::Handbook bookOf(const testing::Drawn& made) {
  const sheet::Pixels grey{3, 2, std::vector<std::uint8_t>(18, 0x99)};
  sheet::Handbook book{"All openings", "", {"HOLD J1: too wide."}, grey, {{12, "packer 10 thick"}}, {}};
  for (std::size_t i = 0; i < made.demo.job.openings.size(); ++i) {
    for (const auto& step : plan::orderOfWork(made.demo.job, made.demo.plan, i, *made.demo.practice)) {
      book.steps.push_back({step, "At " + made.demo.job.openings[i].name, {}, grey});
    }
  }
  return book;
}

std::vector<sheet::PageLog> pagesOf(const testing::Drawn& made, const sheet::Handbook& book, sheet::PaperSize paper) {
  sheet::Wanted wanted;
  wanted.handbook = &book;
  wanted.paper = paper;
  return sheet::layOut(made.subject(), wanted);
}

}  // namespace

TEST_CASE("every step of every demo job is in its handbook, with what is checked and warned of") {
  for (const auto& demo : testing::demoJobs()) {
    const auto made = testing::drawn(demo);
    const sheet::Handbook book = bookOf(made);
    const auto pages = pagesOf(made, book, sheet::PaperSize::A4);
    const std::string text = testing::textOf(pages);
    for (const auto& each : book.steps) {
      CAPTURE(demo.job.title, each.step.title);
      CHECK(text.find(each.step.title) != std::string::npos);
      CHECK(text.find(each.step.before_going_on) != std::string::npos);
      CHECK(text.find(each.step.caution) != std::string::npos);
    }
    CHECK(text.find("HOLD J1: too wide.") != std::string::npos);
    CHECK(text.find("packer 10 thick") != std::string::npos);
    const double a_page = static_cast<double>(book.steps.size()) / static_cast<double>(pages.size() - 1);
    CHECK(a_page > 3.0);
    CHECK(a_page <= 6.0);
  }
}

TEST_CASE("no words of a handbook lie on others or past the frame, on A4 as on Letter") {
  const auto made = testing::drawnFile("boatshed.toml");
  const sheet::Handbook book = bookOf(made);
  for (const auto paper : {sheet::PaperSize::A4, sheet::PaperSize::Letter}) {
    for (const auto& page : pagesOf(made, book, paper)) {
      CHECK(page.height == Approx(paper == sheet::PaperSize::A4 ? 297.0 : 279.4));
      for (const auto& fault : testing::faultsOf(page)) {
        UNSCOPED_INFO(fault);
        CHECK(false);
      }
    }
  }
}
