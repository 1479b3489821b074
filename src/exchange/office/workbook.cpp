#include "exchange/office/grid.h"

#include <expat.h>
#include <unzip.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <map>
#include <memory>
#include <string_view>
#include <utility>

#include "job/rule.h"

namespace sillwright::exchange {
namespace {

using Attributes = std::map<std::string_view, std::string_view>;

/// Reads one part of a zip as XML, by pieces. Names are without their prefix.
struct XmlReader {
  std::function<void(std::string_view name, const Attributes&)> begin;
  std::function<void(std::string_view name)> end = [](std::string_view) {};
  std::string text{};  ///< Since it was last cleared.
  XML_Parser parser = nullptr;
  bool too_much = false;

  /// Empty: done. Otherwise what is wrong.
  std::string run(unzFile zip, const std::string& part) {
    if (unzLocateFile(zip, part.c_str(), 1) != UNZ_OK || unzOpenCurrentFile(zip) != UNZ_OK) return "has no " + part;
    const std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> made(XML_ParserCreate(nullptr), XML_ParserFree);
    parser = made.get();  // endIf stops it
    XML_SetUserData(parser, this);
    XML_SetElementHandler(parser, begun, ended);
    XML_SetCharacterDataHandler(parser, said);
    // A workbook declares no entities; a text that does would grow without end.
    XML_SetStartDoctypeDeclHandler(parser, [](void* self, const XML_Char*, const XML_Char*, const XML_Char*, int) {
      XML_StopParser(static_cast<XmlReader*>(self)->parser, XML_FALSE);
    });
    const std::string wrong = readPieces(zip);
    unzCloseCurrentFile(zip);
    return too_much ? "holds more than is read of a workbook" : wrong.empty() ? wrong : part + " " + wrong;
  }

  /// Of a visitor: there is more than is read.
  void endIf(bool more) {
    too_much = too_much || more;
    if (too_much) XML_StopParser(parser, XML_FALSE);  // XML_FALSE: it will not go on
  }

  std::string readPieces(unzFile zip) {
    std::size_t total = 0;  // bytes as they come out: a zip may lie about its sizes
    for (;;) {
      constexpr int kPiece = 1 << 16;
      void* piece = XML_GetBuffer(parser, kPiece);  // unpacked into the parser's own room, nothing is copied
      const int size = piece == nullptr ? -1 : unzReadCurrentFile(zip, piece, kPiece);
      if (size < 0) return "can't be unpacked";
      total += static_cast<std::size_t>(size);
      endIf(total > 2 * kLargestCsv);  // its marks take as much again as its texts
      if (too_much || XML_ParseBuffer(parser, size, size == 0 ? 1 : 0) != XML_STATUS_OK) return "is no sound XML";
      if (size == 0) return {};  // the part has ended
    }
  }

  static std::string_view local(const char* name) {
    const char* colon = std::strrchr(name, ':');  // each program chooses its prefixes
    return colon == nullptr ? name : colon + 1;
  }
  static void begun(void* self, const XML_Char* name, const XML_Char** pairs) {
    Attributes attributes;
    for (; *pairs != nullptr; pairs += 2) attributes[local(pairs[0])] = pairs[1];
    static_cast<XmlReader*>(self)->begin(local(name), attributes);
  }
  static void ended(void* self, const XML_Char* name) { static_cast<XmlReader*>(self)->end(local(name)); }
  static void said(void* self, const XML_Char* piece, int size) {
    static_cast<XmlReader*>(self)->text.append(piece, static_cast<std::size_t>(size));
  }
};

std::string_view at(const Attributes& attributes, std::string_view name) {
  const auto found = attributes.find(name);
  return found == attributes.end() ? std::string_view{} : found->second;
}

/// "AB12" as row and column from 1; 0 where it says none.
base::Place placeOf(std::string_view cell) {
  base::Place place;  // the loop ends one past the most columns: nothing overflows
  while (!cell.empty() && cell.front() >= 'A' && cell.front() <= 'Z' && place.column <= kMostColumns) {
    place.column = place.column * 26 + static_cast<std::uint32_t>(cell.front() - 'A' + 1);
    cell.remove_prefix(1);
  }
  std::from_chars(cell.data(), cell.data() + cell.size(), place.line);
  return place;
}

/// A number as a person typed it: 1529.9999999999998 is 1530.
std::string numberText(const std::string& stored) {
  double value = 0;
  const auto [end, error] = std::from_chars(stored.data(), stored.data() + stored.size(), value);
  if (error != std::errc{} || end != stored.data() + stored.size()) return stored;  // what is no number is kept
  return job::toText(std::round(value * 1e6) / 1e6);
}

struct BookReader {
  unzFile zip;
  std::vector<std::string> shared{};
  std::size_t cells = 0;
  std::size_t bytes = 0;  ///< Of their texts; many cells may share one.

  /// Empty: done. Otherwise what is wrong.
  std::string run(std::vector<BookSheet>& sheets) {
    std::vector<std::pair<std::string, std::string>> named;  // sheets and their relations
    std::map<std::string, std::string> parts;                // by relation: a path from the zip's root, or from "xl"
    std::string wrong = visit("xl/workbook.xml", [&](std::string_view name, const Attributes& attributes) {
      if (name == "sheet") named.emplace_back(at(attributes, "name"), at(attributes, "id"));
    });
    if (!wrong.empty()) return "is a zip but no workbook (.xlsx): it " + wrong;
    wrong = visit("xl/_rels/workbook.xml.rels", [&](std::string_view name, const Attributes& attributes) {
      if (name == "Relationship") parts[std::string(at(attributes, "Id"))] = at(attributes, "Target");
    });
    if (wrong.empty() && unzLocateFile(zip, "xl/sharedStrings.xml", 1) == UNZ_OK) wrong = readShared();
    for (std::size_t i = 0; i < named.size() && wrong.empty(); ++i) {
      const std::string& target = parts[named[i].second];           // a sheet without a relation has no part
      if (target.find("worksheet") == std::string::npos) continue;  // a chart
      sheets.push_back({named[i].first, {}});
      wrong = readSheet(target.starts_with('/') ? target.substr(1) : "xl/" + target, sheets.back().rows);
    }
    return wrong;
  }

  std::string visit(const std::string& part, std::function<void(std::string_view, const Attributes&)> begin) {
    XmlReader xml;
    xml.begin = std::move(begin);
    return xml.run(zip, part);
  }

  /// The text of an `si` or an `is`: its pieces, less what is only said of how they are spoken.
  struct Pieces {
    std::string text;
    int spoken = 0;  // inside `rPh`, which says how signs are pronounced

    void begin(XmlReader& xml, std::string_view name) {
      if (name == "rPh") ++spoken;
      if (name == "t") xml.text.clear();  // what stands between elements is no text
    }
    void end(XmlReader& xml, std::string_view name) {
      if (name == "rPh") --spoken;
      if (name == "t" && spoken == 0) text += xml.text;
    }
  };

  std::string readShared() {
    XmlReader xml;
    Pieces pieces;
    xml.begin = [&](std::string_view name, const Attributes&) {
      if (name == "si") pieces.text.clear();
      pieces.begin(xml, name);
    };
    xml.end = [&](std::string_view name) {
      pieces.end(xml, name);
      if (name != "si") return;
      shared.push_back(std::move(pieces.text));
      xml.endIf(shared.size() > kMostCells);
    };
    return xml.run(zip, "xl/sharedStrings.xml");
  }

  std::string readSheet(const std::string& part, std::vector<CsvRow>& rows) {
    XmlReader xml;
    Pieces pieces;
    std::string type;
    std::string value;
    base::Place place{0, 0};  // of the last cell: one that doesn't say its own follows it
    xml.begin = [&](std::string_view name, const Attributes& attributes) {
      pieces.begin(xml, name);
      if (name == "v") xml.text.clear();
      if (name == "row") {
        const base::Place said = placeOf(at(attributes, "r"));
        place = {said.line > 0 ? said.line : place.line + 1, 0};
      } else if (name == "c") {
        const base::Place said = placeOf(at(attributes, "r"));
        place = said.line > 0 && said.column > 0 ? said : base::Place{std::max(place.line, 1U), place.column + 1};
        type = at(attributes, "t");
        value.clear();
        pieces.text.clear();
      }
    };
    xml.end = [&](std::string_view name) {
      pieces.end(xml, name);
      if (name == "v") value = xml.text;
      if (name == "c") xml.endIf(!put(rows, place, textOf(type, value, pieces.text)));
    };
    return xml.run(zip, part);
  }

  [[nodiscard]] std::string textOf(const std::string& type, const std::string& value, std::string& pieces) const {
    if (type == "inlineStr") return std::move(pieces);  // the cell has its text itself
    if (type == "s") {                                  // the cell has a number among the shared texts
      std::size_t index = 0;
      std::from_chars(value.data(), value.data() + value.size(), index);
      return index < shared.size() ? shared[index] : std::string{};
    }
    if (type == "b") return value == "1" ? "yes" : "no";             // yesOrNoIn reads these
    return type.empty() || type == "n" ? numberText(value) : value;  // str, e, d: as they are
  }

  /// False: there are more cells than are read.
  bool put(std::vector<CsvRow>& rows, base::Place place, std::string text) {
    if (text.empty()) return true;  // an empty cell that is only formatted takes no room
    if (place.line > kMostRows || place.column > kMostColumns) return false;
    if (rows.size() < place.line) rows.resize(place.line);
    CsvRow& row = rows[place.line - 1];  // cells that are left out before this one count too
    for (auto column = static_cast<std::uint32_t>(row.size()); column < place.column; ++column, ++cells) {
      row.push_back({{}, {place.line, column + 1}});
    }
    bytes += text.size();
    row[place.column - 1].text = std::move(text);
    return cells <= kMostCells && bytes <= kLargestCsv;
  }
};

}  // namespace

base::Result<std::vector<BookSheet>> readWorkbook(const std::filesystem::path& path) {
  std::vector<BookSheet> sheets;
  unzFile zip = unzOpen64(path.c_str());
  std::string wrong = zip == nullptr ? "is a damaged zip" : BookReader{zip}.run(sheets);
  if (zip != nullptr) unzClose(zip);
  if (!wrong.empty()) return {{}, {{path.string(), {}, {}, std::move(wrong)}}};
  return {std::move(sheets), {}};
}

}  // namespace sillwright::exchange
