#include "view/window/stage.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <chrono>
#include <cstdint>

namespace sillwright::view {
namespace {

/// A still picture that takes longer than this can't follow a hand at sixty a second.
constexpr double kSlowSeconds = 0.012;
constexpr int kMostUnmeasured = 20;  // pictures
constexpr int kSamples = 4;

void drawGround(bool dark) {
  const glm::vec3 ground = render::groundColour(dark);
  glClearColor(ground.r, ground.g, ground.b, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
}

}  // namespace

Stage::Stage() = default;
Stage::~Stage() = default;

void Stage::drawScene(const scene::Scene* scene, const Drawn& wanted) {
  std::unique_ptr<render::Target>& target = wanted.quick ? quick_target_ : still_;
  if (!target) {
    target = std::make_unique<render::Target>(wanted.width, wanted.height, wanted.quick ? 1 : kSamples);
  } else if (target->width() != wanted.width || target->height() != wanted.height) {
    target->resize(wanted.width, wanted.height, target->samples());
  }
  target_ = target.get();
  target_->begin();
  if (scene == nullptr) {
    drawGround(wanted.look.dark);
  } else {
    if (uploaded_ != wanted.version) renderer_.upload(*scene);
    uploaded_ = wanted.version;
    renderer_.cut(*scene, wanted.look);
    counts_ = renderer_.draw(wanted.camera, wanted.look, wanted.width, wanted.height);
    ++scenes_drawn_;
  }
  drawn_ = wanted;
}

ImTextureID Stage::drawLens(const LensKey& key, int side, const std::function<LensView()>& shows) {
  side = std::max(side, 1);
  if (!lens_renderer_) lens_renderer_ = std::make_unique<render::Renderer>();
  if (!lens_target_) lens_target_ = std::make_unique<render::Target>(side, side, kSamples);
  if (!lens_ || !(key == lens_key_) || lens_target_->width() != side) {
    lens_ = shows();
    lens_key_ = key;
    lens_target_->resize(side, side, kSamples);
    lens_renderer_->upload(lens_->scene);
    lens_target_->begin();
    lens_renderer_->draw(lens_->camera, lens_->look, side, side);
    lens_target_->resolve();
    target_->resolve();
  }
  return (ImTextureID) static_cast<std::uintptr_t>(lens_target_->texture());
}

void Stage::draw(const scene::Scene* scene, std::uint64_t version, const Shown& shown, int width, int height,
                 bool moving) {
  const Drawn wanted{version, shown.camera, shown.look,
                     width,   height,       hurried && moving && took_seconds_ > kSlowSeconds};
  if (drawn_ != wanted) {
    const auto before = std::chrono::steady_clock::now();
    drawScene(scene, wanted);
    // The card's work counts, not only ours. Waiting for it each time would keep one of the two idle: a card that is
    // fast enough is looked at now and then.
    if (!wanted.quick && scene != nullptr && (took_seconds_ > kSlowSeconds || ++unmeasured_ >= kMostUnmeasured)) {
      glFinish();
      took_seconds_ = std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
      unmeasured_ = 0;
    }
  }
  quick_ = wanted.quick;
  target_->resolve();
}

}  // namespace sillwright::view
