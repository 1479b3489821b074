/// Small owners of OpenGL names, so that nothing leaks on the way out of a constructor that throws.
///
/// Inside this room only. Each must be destroyed while the context it was made in is current.
#pragma once

#include <concepts>
#include <cstddef>
#include <string_view>
#include <utility>

#include "render/gl_api.h"

namespace sillwright::render {

/// Owns one OpenGL name and releases it by `kDelete`; moves, doesn't copy.
template <auto& kDelete>
class Name {
 public:
  Name() = default;
  explicit Name(GLuint id) : id_(id) {}
  ~Name() {
    if (id_ == 0) return;
    if constexpr (std::invocable<decltype(kDelete), GLuint>) {
      kDelete(id_);
    } else {
      kDelete(1, &id_);
    }
  }
  Name(Name&& other) noexcept : id_(std::exchange(other.id_, 0)) {}
  Name& operator=(Name&& other) noexcept {  // the other one releases what was here
    std::swap(id_, other.id_);
    return *this;
  }
  [[nodiscard]] GLuint id() const { return id_; }

 private:
  GLuint id_ = 0;
};

using Buffer = Name<glDeleteBuffers>;
using Texture = Name<glDeleteTextures>;
using VertexArray = Name<glDeleteVertexArrays>;
using Framebuffer = Name<glDeleteFramebuffers>;
using Renderbuffer = Name<glDeleteRenderbuffers>;
using Shader = Name<glDeleteShader>;
using Program = Name<glDeleteProgram>;

/// A new name: make<Buffer>(glGenBuffers).
template <class Kind>
[[nodiscard]] Kind make(void (*generate)(GLsizei, GLuint*)) {
  GLuint id = 0;
  generate(1, &id);
  return Kind(id);
}

/// Compiles and links; `before` is put before both shaders. Throws std::runtime_error: a sentence naming `what`,
/// with the log.
[[nodiscard]] Program makeProgram(std::string_view what, std::string_view before, std::string_view vertex,
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

}  // namespace sillwright::render
