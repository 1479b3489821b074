/// Small owners of OpenGL names, so that nothing leaks on the way out of a constructor that throws.
///
/// Inside this room only. Each must be destroyed while the context it was made in is current.
#pragma once

#include <cstddef>
#include <string_view>
#include <utility>

#include "render/gl_api.h"

namespace sillwright::render {

/// Owns one OpenGL name and releases it; moves, doesn't copy.
template <class Release>
class Name {
 public:
  Name() = default;
  explicit Name(GLuint id) : id_(id) {}
  ~Name() { reset(); }
  Name(Name&& other) noexcept : id_(std::exchange(other.id_, 0)) {}
  Name& operator=(Name&& other) noexcept {
    if (this != &other) {
      reset();
      id_ = std::exchange(other.id_, 0);
    }
    return *this;
  }
  [[nodiscard]] GLuint id() const { return id_; }

 private:
  void reset() {
    if (id_ != 0) Release{}(id_);
    id_ = 0;
  }
  GLuint id_ = 0;
};

struct ReleaseBuffer {
  void operator()(GLuint id) const { glDeleteBuffers(1, &id); }
};
struct ReleaseTexture {
  void operator()(GLuint id) const { glDeleteTextures(1, &id); }
};
struct ReleaseArray {
  void operator()(GLuint id) const { glDeleteVertexArrays(1, &id); }
};
struct ReleaseFramebuffer {
  void operator()(GLuint id) const { glDeleteFramebuffers(1, &id); }
};
struct ReleaseRenderbuffer {
  void operator()(GLuint id) const { glDeleteRenderbuffers(1, &id); }
};
struct ReleaseShader {
  void operator()(GLuint id) const { glDeleteShader(id); }
};
struct ReleaseProgram {
  void operator()(GLuint id) const { glDeleteProgram(id); }
};

using Buffer = Name<ReleaseBuffer>;
using Texture = Name<ReleaseTexture>;
using VertexArray = Name<ReleaseArray>;
using Framebuffer = Name<ReleaseFramebuffer>;
using Renderbuffer = Name<ReleaseRenderbuffer>;
using Shader = Name<ReleaseShader>;
using Program = Name<ReleaseProgram>;

[[nodiscard]] Buffer makeBuffer();
[[nodiscard]] Texture makeTexture();
[[nodiscard]] VertexArray makeVertexArray();
[[nodiscard]] Framebuffer makeFramebuffer();
[[nodiscard]] Renderbuffer makeRenderbuffer();

/// Compiles and links. `common` is put before both. Throws std::runtime_error: a sentence naming `what`, with the log.
[[nodiscard]] Program makeProgram(std::string_view what, std::string_view common, std::string_view vertex,
                                  std::string_view fragment);

/// Numbers that shaders read by index: a buffer, or where OpenGL ES has none to read, a texture.
class BufferTexture {
 public:
  explicit BufferTexture(GLenum format);
  /// Replaces the content. Throws std::runtime_error where it is larger than the card reads.
  void send(const void* bytes, std::size_t size, GLenum usage);
  /// Replaces a part of it.
  void replace(std::size_t first, const void* bytes, std::size_t size);
  void bind(GLuint unit) const;

 private:
  [[nodiscard]] std::size_t texel() const { return format_ == GL_RGBA32F ? 16 : 4; }

  GLenum format_;
#ifdef __EMSCRIPTEN__
  static constexpr GLuint kSendUnit = 3;  ///< Of none that is drawn with.
  std::size_t rows_ = 0;
#else
  Buffer buffer_;
#endif
  Texture texture_;
};

/// Whether what lies beyond the cut's plane is taken away.
void clipByCut(bool on);

/// Remembers what OpenGL state a drawing changes and puts it back, so that the window's own drawing isn't disturbed.
class KeepState {
 public:
  KeepState();
  ~KeepState();
  KeepState(const KeepState&) = delete;
  KeepState& operator=(const KeepState&) = delete;

 private:
  GLboolean depth_test_ = GL_FALSE;
  GLboolean cull_face_ = GL_FALSE;
  GLboolean blend_ = GL_FALSE;
  GLboolean scissor_ = GL_FALSE;
  GLboolean stencil_ = GL_FALSE;
};

}  // namespace sillwright::render
