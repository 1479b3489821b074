#include "exchange/office/decode.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "base/utf8.h"

namespace sillwright::exchange {
namespace {

constexpr std::size_t kLooked = 4096;  // bytes at the begin by which an encoding is told

/// What Windows-1252 has at 0x80 to 0x9F (the Unicode consortium's mapping table CP1252.TXT); 0: nothing.
constexpr std::array<std::uint16_t, 32> kWindows{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                 0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::optional<std::string> fromWindows(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    const bool special = byte >= 0x80 && byte < 0xA0;
    const std::uint32_t code = special ? kWindows[byte - 0x80U] : byte;
    if (special && code == 0) return std::nullopt;
    base::appendUtf8(text, code);
  }
  return text;
}

/// Nothing where half of a pair stands alone. A last byte without its other half is left out.
std::optional<std::string> fromUtf16(std::string_view bytes, bool high_first) {
  const auto unit = [&](std::size_t at) -> std::uint32_t {
    const auto a = static_cast<unsigned char>(bytes[at]);
    const auto b = static_cast<unsigned char>(bytes[at + 1]);
    return high_first ? a * 256U + b : b * 256U + a;
  };
  std::string text;
  text.reserve(bytes.size() / 2);
  for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
    std::uint32_t code = unit(at);
    if (code >= 0xD800 && code < 0xE000) {
      const std::uint32_t low = at + 3 < bytes.size() ? unit(at + 2) : 0;
      if (code >= 0xDC00 || low < 0xDC00 || low >= 0xE000) return std::nullopt;
      code = 0x10000 + ((code - 0xD800) << 10U) + (low - 0xDC00);
      at += 2;
    }
    base::appendUtf8(text, code);
  }
  return text;
}

enum class Utf16 : std::uint8_t { No, LowFirst, HighFirst };

/// By its mark, or because the zero halves of plain letters stand all on one side.
Utf16 utf16Of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return Utf16::LowFirst;
  if (bytes.starts_with("\xFE\xFF")) return Utf16::HighFirst;
  std::array<std::size_t, 2> zeros{};
  const std::size_t looked = std::min(bytes.size(), kLooked);
  for (std::size_t i = 0; i < looked; ++i) zeros[i % 2] += bytes[i] == '\0' ? 1 : 0;
  if (zeros[1] > looked / 4 && zeros[0] == 0) return Utf16::LowFirst;
  if (zeros[0] > looked / 4 && zeros[1] == 0) return Utf16::HighFirst;
  return Utf16::No;
}

std::optional<Decoded> textOf(std::string bytes) {
  using base::kByteOrderMark;
  if (const Utf16 form = utf16Of(bytes); form != Utf16::No) {
    auto text = fromUtf16(bytes, form == Utf16::HighFirst);
    if (!text) return std::nullopt;
    if (text->starts_with(kByteOrderMark)) text->erase(0, kByteOrderMark.size());
    return Decoded{std::move(*text), "UTF-16"};
  }
  if (bytes.find('\0') != std::string::npos) return std::nullopt;
  if (base::notUtf8(bytes) == std::string_view::npos) {
    if (bytes.starts_with(kByteOrderMark)) bytes.erase(0, kByteOrderMark.size());
    return Decoded{std::move(bytes), "UTF-8"};
  }
  auto text = fromWindows(bytes);
  if (!text) return std::nullopt;
  return Decoded{std::move(*text), "Windows-1252"};
}

}  // namespace

std::string notText(std::string_view bytes) {
  using namespace std::string_view_literals;
  static constexpr std::pair<std::string_view, const char*> kKinds[] = {
      {"\xD0\xCF\x11\xE0"sv, "a workbook of the old kind (.xls)"},
      {"%PDF"sv, "a PDF"},
      {"{\\rtf"sv, "a document of a word processor"},
      {"\x89PNG"sv, "a picture"},
      {"\xFF\xD8\xFF"sv, "a picture"},
      {"<!DOCTYPE"sv, "a web page"},
      {"<html"sv, "a web page"},
      {"<?xml"sv, "XML"},
      {"\x1F\x8B"sv, "compressed"}};
  const auto* kind = std::find_if(std::begin(kKinds), std::end(kKinds),
                                  [&](const auto& each) { return bytes.starts_with(each.first); });
  return kind == std::end(kKinds) ? std::string{} : kind->second;
}

base::Result<Decoded> decode(std::string bytes, const std::string& file) {
  const auto refused = [&](std::string say) -> base::Result<Decoded> { return {{}, {{file, {}, {}, std::move(say)}}}; };
  if (const std::string kind = notText(bytes); !kind.empty())
    return refused("is " + kind + ", not a table: save it as CSV or as a workbook (.xlsx)");
  auto text = textOf(std::move(bytes));
  if (!text) return refused("is no text: neither UTF-8, UTF-16 nor Windows-1252");
  return {std::move(text), {}};
}

}  // namespace sillwright::exchange
