// Comma-separated values: the examples of RFC 4180 section 2, and what comes back from what was written.

#include "exchange/csv.h"

#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;

namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows textsOf(std::string_view csv) {
  const auto read = exchange::readCsv(csv, "list.csv");
  for (const auto& error : read.errors) UNSCOPED_INFO(base::toLine(error));
  REQUIRE(read.ok());
  Rows rows;
  for (const auto& row : *read.value) {
    rows.emplace_back();
    for (const auto& field : row) rows.back().push_back(field.text);
  }
  return rows;
}

std::string errorOf(std::string_view csv) {
  const auto read = exchange::readCsv(csv, "list.csv");
  REQUIRE(!read.ok());
  REQUIRE(read.errors.size() == 1);
  return base::toLine(read.errors[0]);
}

bool starts(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

}  // namespace

TEST_CASE("the examples of RFC 4180, section 2") {
  const Rows two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  CHECK(textsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two);          // rule 1
  CHECK(textsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two);              // rule 2: the last line end may lack
  CHECK(textsOf("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two);  // rule 5
  CHECK(textsOf("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==    // rule 6
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(textsOf("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});  // rule 7
  CHECK(textsOf(" a , b") == Rows{{" a ", " b"}});                                 // rule 4: spaces belong to the field
}

TEST_CASE("what spreadsheets do besides: LF alone, a byte order mark, empty rows, empty fields") {
  CHECK(textsOf("a,b\nc,d\n") == Rows{{"a", "b"}, {"c", "d"}});
  CHECK(textsOf("\xEF\xBB\xBF"
                "a,b\r\n") == Rows{{"a", "b"}});
  CHECK(textsOf("a,b\r\n\r\n\nc,d\r\n\r\n") == Rows{{"a", "b"}, {"c", "d"}});
  CHECK(textsOf("a,,\r\n,,\r\n\"\",x,") == Rows{{"a", "", ""}, {"", "", ""}, {"", "x", ""}});
  CHECK(textsOf("").empty());
}

TEST_CASE("places are told by line and character") {
  const auto read = exchange::readCsv("na\u00efve,b\r\n\"two\nlines\",\u7a93,c\r\n", "list.csv");
  REQUIRE(read.ok());
  const auto& rows = *read.value;
  CHECK(rows[0][1].at == base::Place{1, 7});
  CHECK(rows[1][0].at == base::Place{2, 1});
  CHECK(rows[1][1].at == base::Place{3, 8});
  CHECK(rows[1][2].at == base::Place{3, 10});
}

TEST_CASE("what is no CSV is told at its place") {
  CHECK(starts(errorOf("a,b\r\nc,\"d"), "list.csv:2:3: a quote that is not closed"));
  CHECK(starts(errorOf("a,\"b\"c\r\n"), "list.csv:1:6: text after a closing quote, where the field has to end"));
  CHECK(starts(errorOf("a,b\"c\r\n"), "list.csv:1:4: a quote inside a field"));
  CHECK(starts(errorOf("a,b\nc,\xFF\n"), "list.csv:2:3: not UTF-8"));
  CHECK(starts(errorOf("a,\xC0\x80\n"), "list.csv:1:3: not UTF-8"));      // a longer form than needed
  CHECK(starts(errorOf("a,\xED\xA0\x80\n"), "list.csv:1:3: not UTF-8"));  // half of a pair of UTF-16
  CHECK(starts(errorOf("a,b,\xE2\x82"), "list.csv:1:5: not UTF-8"));      // cut off
}

TEST_CASE("random tables come back as they were written") {
  testing::Dice dice(4180);
  const std::vector<std::string> bits{"\"", ",", "\r\n", "\n", "\r", "a",  " ",   "é",
                                      "窓", "½", "🪟", ";",  "=",  "\t", "\"\""};
  for (int round = 0; round < 500; ++round) {
    takeoff::Table table;
    const int columns = 2 + dice.upTo(4);
    for (int i = 0; i < columns; ++i) table.columns.push_back({"column " + std::to_string(i), takeoff::Holds::Text, 0});
    Rows wanted{{}};
    for (const auto& column : table.columns) wanted[0].push_back(column.name);
    const int rows = dice.upTo(5);
    for (int r = 0; r < rows; ++r) {
      table.rows.emplace_back();
      wanted.emplace_back();
      for (int i = 0; i < columns; ++i) {
        std::string text;
        for (int n = dice.upTo(6); n > 0; --n) text += bits[static_cast<std::size_t>(dice.upTo(int(bits.size()) - 1))];
        wanted.back().push_back(text);
        table.rows.back().push_back(text.empty() ? takeoff::Cell{} : takeoff::Cell{text});
      }
    }
    const std::string csv = exchange::csv(table, practice::Display::Millimetres);
    CAPTURE(csv);
    REQUIRE(textsOf(csv) == wanted);
  }
}

TEST_CASE("whatever the bytes, they are read or told, and what is read is written and read alike") {
  testing::Dice dice(81);
  constexpr char kBits[] = "\"\",,\r\n\na;1. \xC3\xA9\xFF\0\xE2";
  const std::string bits(kBits, sizeof kBits - 1);
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  int read_well = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string csv;
    for (int n = dice.upTo(8); n > 6; --n) csv += kMark;  // a second one is a name's
    for (int n = dice.upTo(24); n > 0; --n) csv += bits[static_cast<std::size_t>(dice.upTo(int(bits.size()) - 1))];
    const auto read = exchange::readCsv(csv, "random.csv");
    REQUIRE(read.ok() != !read.errors.empty());
    if (!read.ok()) {
      CHECK(read.errors[0].at.line >= 1);
      continue;
    }
    ++read_well;
    std::string again;
    for (const auto& row : *read.value) {
      for (std::size_t i = 0; i < row.size(); ++i) again += (i > 0 ? "," : "") + exchange::csvField(row[i].text);
      again += "\r\n";
    }
    CAPTURE(csv);
    Rows texts;
    for (const auto& row : *read.value) {
      texts.emplace_back();
      for (const auto& field : row) texts.back().push_back(field.text);
    }
    REQUIRE(textsOf(again) == texts);
  }
  CHECK(read_well > 1'000);
}

TEST_CASE("what a reader would take off a field's ends is put in quotes") {
  CHECK(exchange::csvField(" a") == "\" a\"");
  CHECK(exchange::csvField("a\t") == "\"a\t\"");
  CHECK(exchange::csvField("a b") == "a b");
  for (const char* formula : {"=1+1", "+49 30", "-", "@SUM(A1)", "'=1", "''-x"}) {
    CHECK(exchange::csvField(formula) == std::string("'") + formula);
    CHECK(textsOf(exchange::csvField(formula) + ",x\r\n") == Rows{{formula, "x"}});
  }
  CHECK(exchange::csvField("'tis 2-up") == "'tis 2-up");
  CHECK(exchange::csvField("=A1,B1") == "\"'=A1,B1\"");
  CHECK(exchange::csvField("\xEF\xBB\xBF") == "\"\xEF\xBB\xBF\"");
}

TEST_CASE("numbers are written in the shortest form that reads back, with a point") {
  takeoff::Table table{"t", "t", {{"a", takeoff::Holds::Length, 1}, {"b", takeoff::Holds::Number, 0}}, {}, {}};
  table.rows = {{1530.0, 0.1}, {-0.0, 1234567.25}, {takeoff::Cell{}, 1e-3}};
  CHECK(exchange::csv(table, practice::Display::Millimetres) == "a mm,b\r\n1530,0.1\r\n0,1234567.25\r\n,0.001\r\n");
}

TEST_CASE("a column has one unit, which its heading says: the practice's") {
  takeoff::Table table{
      "t", "t", {{"a", takeoff::Holds::Length}, {"b", takeoff::Holds::Run}, {"c", takeoff::Holds::Area}}, {}, {}};
  table.rows = {{1231.9, 2438.4, 9.290304}};
  CHECK(exchange::csv(table, practice::Display::Millimetres) == "a mm,b mm,c m2\r\n1231.9,2438.4,9.290304\r\n");
  CHECK(exchange::csv(table, practice::Display::InchFractions) == "a in,b ft,c sq ft\r\n48.5,8,100\r\n");
}
