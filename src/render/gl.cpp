#include "render/gl.h"

#include <array>
#include <stdexcept>
#include <string>

namespace sillwright::render {
namespace {

template <class Kind>
Kind make(void (*generate)(GLsizei, GLuint*)) {
  GLuint id = 0;
  generate(1, &id);
  return Kind(id);
}

std::string logOf(GLuint id, bool program) {
  GLint length = 0;
  if (program) {
    glGetProgramiv(id, GL_INFO_LOG_LENGTH, &length);
  } else {
    glGetShaderiv(id, GL_INFO_LOG_LENGTH, &length);
  }
  std::string log(static_cast<std::size_t>(length > 0 ? length : 1), '\0');
  if (program) {
    glGetProgramInfoLog(id, static_cast<GLsizei>(log.size()), &length, log.data());
  } else {
    glGetShaderInfoLog(id, static_cast<GLsizei>(log.size()), &length, log.data());
  }
  log.resize(static_cast<std::size_t>(length > 0 ? length : 0));
  return log;
}

Shader compile(std::string_view what, GLenum kind, std::string_view common, std::string_view body) {
  constexpr std::string_view kVersion = "#version 330 core\n";
  Shader shader(glCreateShader(kind));
  const std::array<const GLchar*, 3> text{kVersion.data(), common.data(), body.data()};
  const std::array<GLint, 3> length{static_cast<GLint>(kVersion.size()), static_cast<GLint>(common.size()),
                                    static_cast<GLint>(body.size())};
  glShaderSource(shader.id(), 3, text.data(), length.data());
  glCompileShader(shader.id());
  GLint good = GL_FALSE;
  glGetShaderiv(shader.id(), GL_COMPILE_STATUS, &good);
  if (good != GL_TRUE) {
    throw std::runtime_error("The graphics driver refused the " + std::string(what) +
                             (kind == GL_VERTEX_SHADER ? " vertex" : " fragment") +
                             " shader: " + logOf(shader.id(), false));
  }
  return shader;
}

void set(GLenum what, GLboolean on) {
  if (on == GL_TRUE) {
    glEnable(what);
  } else {
    glDisable(what);
  }
}

}  // namespace

Buffer makeBuffer() {
  return make<Buffer>(glGenBuffers);
}
Texture makeTexture() {
  return make<Texture>(glGenTextures);
}
VertexArray makeVertexArray() {
  return make<VertexArray>(glGenVertexArrays);
}
Framebuffer makeFramebuffer() {
  return make<Framebuffer>(glGenFramebuffers);
}
Renderbuffer makeRenderbuffer() {
  return make<Renderbuffer>(glGenRenderbuffers);
}

Program makeProgram(std::string_view what, std::string_view common, std::string_view vertex,
                    std::string_view fragment) {
  const Shader first = compile(what, GL_VERTEX_SHADER, common, vertex);
  const Shader second = compile(what, GL_FRAGMENT_SHADER, common, fragment);
  Program program(glCreateProgram());
  glAttachShader(program.id(), first.id());
  glAttachShader(program.id(), second.id());
  glLinkProgram(program.id());
  glDetachShader(program.id(), first.id());
  glDetachShader(program.id(), second.id());
  GLint good = GL_FALSE;
  glGetProgramiv(program.id(), GL_LINK_STATUS, &good);
  if (good != GL_TRUE) {
    throw std::runtime_error("The graphics driver could not link the " + std::string(what) +
                             " shaders: " + logOf(program.id(), true));
  }
  return program;
}

BufferTexture::BufferTexture(GLenum format) : format_(format), buffer_(makeBuffer()), texture_(makeTexture()) {}

void BufferTexture::send(const void* bytes, std::size_t size, GLenum usage) {
  GLint most = 0;
  glGetIntegerv(GL_MAX_TEXTURE_BUFFER_SIZE, &most);
  const std::size_t texel = format_ == GL_RGBA32F ? 16 : 4;
  if (size / texel > static_cast<std::size_t>(most)) {
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
  glTexBuffer(GL_TEXTURE_BUFFER, format_, buffer_.id());
}

KeepState::KeepState()
    : depth_test_(glIsEnabled(GL_DEPTH_TEST)),
      cull_face_(glIsEnabled(GL_CULL_FACE)),
      blend_(glIsEnabled(GL_BLEND)),
      scissor_(glIsEnabled(GL_SCISSOR_TEST)),
      stencil_(glIsEnabled(GL_STENCIL_TEST)) {}

KeepState::~KeepState() {
  set(GL_DEPTH_TEST, depth_test_);
  set(GL_CULL_FACE, cull_face_);
  set(GL_BLEND, blend_);
  set(GL_SCISSOR_TEST, scissor_);
  set(GL_STENCIL_TEST, stencil_);
  glDisable(GL_CLIP_DISTANCE0);
  glDepthMask(GL_TRUE);
  glBindVertexArray(0);
  glUseProgram(0);
  glActiveTexture(GL_TEXTURE0);
}

}  // namespace sillwright::render
