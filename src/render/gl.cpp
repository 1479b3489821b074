#include "render/gl.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

namespace sillwright::render {
namespace {

/// The log of a shader or a program, by OpenGL's two functions for its kind.
template <class Get, class Say>
std::string logOf(GLuint id, const Get& get, const Say& say) {
  GLint length = 0;
  get(id, GL_INFO_LOG_LENGTH, &length);  // it counts the closing zero; 0: there is no log
  std::string log(static_cast<std::size_t>(std::max(length, 1)), '\0');
  say(id, static_cast<GLsizei>(log.size()), &length, log.data());  // now what was written, without the zero
  log.resize(static_cast<std::size_t>(std::max(length, 0)));
  return log;
}

// What differs between the two OpenGLs: how a shader reads data by index, and how the cut takes things away.
#ifdef __EMSCRIPTEN__
constexpr std::string_view kVersion =
    "#version 300 es\n"  // ES gives these less precision, or none, by itself
    "precision highp float;\nprecision highp int;\nprecision highp sampler2D;\nprecision highp usampler2D;\n"
    "precision highp sampler2DArray;\n"
    "#define DataNumbers sampler2D\n#define DataWholes usampler2D\n"
    "#define dataAt(data, i) texelFetch(data, ivec2((i) & 1023, (i) >> 10), 0)\n"  // rows of kRow
    "#define keepFrom(distance) kept = distance\n#define leaveCut() if (kept < 0.0) discard\n";
constexpr std::string_view kOfVertex = "#define OF_VERTEX\n#define passed out\nout float kept;\n";
constexpr std::string_view kOfFragment = "#define passed in\nin float kept;\n";
#else
constexpr std::string_view kVersion =
    "#version 330 core\n"
    "#define DataNumbers samplerBuffer\n#define DataWholes usamplerBuffer\n"
    "#define dataAt(data, i) texelFetch(data, i)\n"
    "#define keepFrom(distance) gl_ClipDistance[0] = distance\n#define leaveCut()\n";
constexpr std::string_view kOfVertex = "#define OF_VERTEX\n#define passed out\n";
constexpr std::string_view kOfFragment = "#define passed in\n";
#endif

Shader compile(std::string_view what, GLenum kind, std::string_view before, std::string_view body) {
  Shader shader(glCreateShader(kind));
  const std::array<std::string_view, 4> parts{kVersion, kind == GL_VERTEX_SHADER ? kOfVertex : kOfFragment, before,
                                              body};
  std::array<const GLchar*, 4> text{};
  std::array<GLint, 4> length{};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    text[i] = parts[i].empty() ? "" : parts[i].data();  // an empty view may have no address
    length[i] = static_cast<GLint>(parts[i].size());
  }
  glShaderSource(shader.id(), 4, text.data(), length.data());
  glCompileShader(shader.id());
  GLint good = GL_FALSE;
  glGetShaderiv(shader.id(), GL_COMPILE_STATUS, &good);
  if (good != GL_TRUE) {
    throw std::runtime_error("The graphics driver refused the " + std::string(what) +
                             (kind == GL_VERTEX_SHADER ? " vertex" : " fragment") +
                             " shader: " + logOf(shader.id(), glGetShaderiv, glGetShaderInfoLog));
  }
  return shader;
}

}  // namespace

Program makeProgram(std::string_view what, std::string_view before, std::string_view vertex,
                    std::string_view fragment) {
  const Shader first = compile(what, GL_VERTEX_SHADER, before, vertex);
  const Shader second = compile(what, GL_FRAGMENT_SHADER, before, fragment);
  Program program(glCreateProgram());
  glAttachShader(program.id(), first.id());
  glAttachShader(program.id(), second.id());
  glLinkProgram(program.id());
  glDetachShader(program.id(), first.id());  // attached, it would stay with the program
  glDetachShader(program.id(), second.id());
  GLint good = GL_FALSE;
  glGetProgramiv(program.id(), GL_LINK_STATUS, &good);
  if (good != GL_TRUE) {
    throw std::runtime_error("The graphics driver could not link the " + std::string(what) +
                             " shaders: " + logOf(program.id(), glGetProgramiv, glGetProgramInfoLog));
  }
  return program;
}

#ifdef __EMSCRIPTEN__

namespace {
constexpr std::size_t kRow = 1024;  // texels, as in dataAt

/// Sends texels from `first` on that lie in one row, or in whole rows.
void sendRows(GLenum format, std::size_t first, std::size_t texels, const char* bytes) {
  const bool numbers = format == GL_RGBA32F;
  glTexSubImage2D(GL_TEXTURE_2D, 0, static_cast<GLint>(first % kRow), static_cast<GLint>(first / kRow),
                  static_cast<GLsizei>(std::min(texels, kRow)),
                  static_cast<GLsizei>(std::max<std::size_t>(texels / kRow, 1)), numbers ? GL_RGBA : GL_RED_INTEGER,
                  numbers ? GL_FLOAT : GL_UNSIGNED_INT, bytes);
}
}  // namespace

BufferTexture::BufferTexture(GLenum format) : format_(format), texture_(make<Texture>(glGenTextures)) {}

void BufferTexture::send(const void* bytes, std::size_t size, GLenum) {
  const std::size_t rows = (size / texel() + kRow - 1) / kRow;
  GLint most = 0;
  glGetIntegerv(GL_MAX_TEXTURE_SIZE, &most);
  if (rows > static_cast<std::size_t>(most)) {
    throw std::runtime_error("The scene has more parts than this graphics driver can hold at once.");
  }
  glActiveTexture(GL_TEXTURE0 + kSendUnit);
  glBindTexture(GL_TEXTURE_2D, texture_.id());
  if (rows > rows_) {  // room only grows: a smaller content fits into it
    const bool numbers = format_ == GL_RGBA32F;
    rows_ = rows;
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glTexImage2D(GL_TEXTURE_2D, 0, static_cast<GLint>(format_), static_cast<GLsizei>(kRow), static_cast<GLsizei>(rows),
                 0, numbers ? GL_RGBA : GL_RED_INTEGER, numbers ? GL_FLOAT : GL_UNSIGNED_INT, nullptr);
  }
  if (bytes != nullptr) replace(0, bytes, size);
}

void BufferTexture::replace(std::size_t first, const void* bytes, std::size_t size) {
  glActiveTexture(GL_TEXTURE0 + kSendUnit);
  glBindTexture(GL_TEXTURE_2D, texture_.id());
  const char* from = static_cast<const char*>(bytes);
  std::size_t at = first / texel();
  for (std::size_t left = size / texel(); left > 0;) {
    const bool whole = at % kRow == 0 && left >= kRow;  // as many whole rows as there are go in one call
    const std::size_t some = whole ? left / kRow * kRow : std::min(left, kRow - at % kRow);
    sendRows(format_, at, some, from);
    from += some * texel();
    at += some;
    left -= some;
  }
}

void BufferTexture::bind(GLuint unit) const {
  glActiveTexture(GL_TEXTURE0 + unit);
  glBindTexture(GL_TEXTURE_2D, texture_.id());
}

#else

BufferTexture::BufferTexture(GLenum format)
    : format_(format), buffer_(make<Buffer>(glGenBuffers)), texture_(make<Texture>(glGenTextures)) {}

void BufferTexture::send(const void* bytes, std::size_t size, GLenum usage) {
  GLint most = 0;
  glGetIntegerv(GL_MAX_TEXTURE_BUFFER_SIZE, &most);  // counted in texels
  if (size / texel() > static_cast<std::size_t>(most)) {
    throw std::runtime_error("The scene has more parts than this graphics driver can hold at once.");
  }
  glBindBuffer(GL_TEXTURE_BUFFER, buffer_.id());
  glBufferData(GL_TEXTURE_BUFFER, static_cast<GLsizeiptr>(size), bytes, usage);
  glBindBuffer(GL_TEXTURE_BUFFER, 0);
}

void BufferTexture::replace(std::size_t first, const void* bytes, std::size_t size) {
  if (size == 0) return;
  glBindBuffer(GL_TEXTURE_BUFFER, buffer_.id());
  glBufferSubData(GL_TEXTURE_BUFFER, static_cast<GLintptr>(first), static_cast<GLsizeiptr>(size), bytes);
  glBindBuffer(GL_TEXTURE_BUFFER, 0);
}

void BufferTexture::bind(GLuint unit) const {
  glActiveTexture(GL_TEXTURE0 + unit);
  glBindTexture(GL_TEXTURE_BUFFER, texture_.id());
  glTexBuffer(GL_TEXTURE_BUFFER, format_, buffer_.id());  // a name is no buffer before it is sent to, so not sooner
}

#endif

void clipByCut(bool on) {
#ifdef __EMSCRIPTEN__  // the shaders leave out what is cut away
  static_cast<void>(on);
#else
  on ? glEnable(GL_CLIP_DISTANCE0) : glDisable(GL_CLIP_DISTANCE0);
#endif
}

}  // namespace sillwright::render
