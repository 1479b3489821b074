#include "view/window/frame.h"

#include <epoxy/gl.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>
#include <utility>

#include "view/panels/panels.h"

namespace sillwright::view {

namespace {

/// A still picture that takes longer than this can't follow a hand at sixty a second.
constexpr double kSlowSeconds = 0.012;
constexpr int kMostUnmeasured = 20;  // pictures
constexpr int kSamples = 4;

void drawGround(bool dark) {  // where there is no scene
  const glm::vec3 ground = render::groundColour(dark);
  glClearColor(ground.r, ground.g, ground.b, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
}

/// Hands over the items of both between the first and the last that differ.
template <class Item, class Take>
void eachChanged(const std::vector<Item>& before, const std::vector<Item>& now, Take&& take) {
  const auto same = [](const Item& a, const Item& b) { return std::memcmp(&a, &b, sizeof a) == 0; };
  const auto [was, is] = std::mismatch(before.begin(), before.end(), now.begin(), now.end(), same);
  const auto [was_end, is_end] = std::mismatch(before.rbegin(), std::make_reverse_iterator(was), now.rbegin(),
                                               std::make_reverse_iterator(is), same);
  std::for_each(was, was_end.base(), take);
  std::for_each(is, is_end.base(), take);
}

/// Round what of a list is drawn otherwise than before: corners, and all within clips of other sizes.
render::PixelBox changedBox(const ListDrawn& before, const ListDrawn& now) {
  render::PixelBox box = render::kNowhere;
  eachChanged(before.corners, now.corners, [&box](const ImDrawVert& corner) {
    box = render::joined(box, {corner.pos.x, corner.pos.y, corner.pos.x, corner.pos.y});
  });
  eachChanged(before.clips, now.clips, [&box](const render::PixelBox& clip) { box = render::joined(box, clip); });
  return box;
}

ListDrawn drawnOf(const ImDrawList& list) {  // a copy: the list is another's in the next frame
  ListDrawn drawn{{list.VtxBuffer.begin(), list.VtxBuffer.end()}, {}};
  for (const ImDrawCmd& each : list.CmdBuffer) {
    const ImVec4& clip = each.ClipRect;
    drawn.clips.emplace_back(clip.x, clip.y, clip.z, clip.w);
  }
  return drawn;
}

/// Has each command draw within each of the boxes alone.
void clipTo(const std::vector<render::PixelBox>& boxes, ImVector<ImDrawCmd>& commands) {
  const ImVector<ImDrawCmd> all = commands;
  commands.resize(0);
  for (ImDrawCmd each : all) {  // a copy, whose clip is made smaller for each box
    const ImVec4 clip = each.ClipRect;
    for (const render::PixelBox& box : boxes) {
      const render::PixelBox in = render::common(box, {clip.x, clip.y, clip.z, clip.w});
      if (render::areaOf(in) <= 0.0F) continue;
      each.ClipRect = {in.x, in.y, in.z, in.w};
      commands.push_back(each);
    }
  }
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
    kept_ = nullptr;  // its picture went with its buffers
  }
  // Another picture stands where the last one did: all of it is to be seen, the panels too.
  if (std::exchange(target_, target.get()) != target.get()) stale_ = {render::kEverywhere};
  const bool eye_rests = drawn_ && drawn_->camera == wanted.camera;
  const bool kept = eye_rests && kept_ == target_;  // the renderer's last picture is in this buffer, not in the other
  target_->begin(!eye_rests);                       // while the eye moves nothing of it is kept, and no copy needed
  kept_ = nullptr;                                  // until it is drawn: a throw leaves nothing to be kept
  if (scene == nullptr) {
    drawGround(wanted.look.dark);
    stale_ = {render::kEverywhere};
  } else {
    if (uploaded_ != wanted.version) renderer_.upload(*scene);  // before `uploaded_`: one that throws is sent again
    uploaded_ = wanted.version;
    renderer_.cut(*scene, wanted.look);
    counts_ = renderer_.draw(wanted.camera, wanted.look, wanted.width, wanted.height, kept);
    if (eye_rests || !wanted.quick) kept_ = target_;  // drawn straight, panels lie over it
    for (const render::PixelBox& box : counts_.boxes) render::addBox(stale_, box);
    ++scenes_drawn_;
  }
  drawn_ = wanted;
}

ImTextureID Stage::drawLens(const LensKey& key, int side, const std::function<LensView()>& shows) {
  side = std::max(side, 1);
  if (!lens_renderer_) lens_renderer_ = std::make_unique<render::Renderer>();  // its scene is another
  if (!lens_target_) lens_target_ = std::make_unique<render::Target>(side, side, kSamples);
  if (!lens_ || !(key == lens_key_) || lens_target_->width() != side) {
    lens_ = shows();
    lens_key_ = key;
    lens_target_->resize(side, side, kSamples);
    lens_renderer_->upload(lens_->scene);
    lens_target_->begin();
    lens_renderer_->draw(lens_->camera, lens_->look, side, side);
    lens_target_->resolve();
    stale_ = {render::kEverywhere};  // its texture keeps its name, so that no list of the panels tells
  }
  return (ImTextureID) static_cast<std::uintptr_t>(lens_target_->texture());
}

ImTextureID Stage::smallPicture(const std::filesystem::path& file) {
  auto [found, first] = small.try_emplace(file);  // one that can't be read is not read again for each frame
  std::vector<char> rgb(kSmallWidth * kSmallHeight * 3);
  if (first && std::ifstream(file, std::ios::binary).read(rgb.data(), static_cast<std::streamsize>(rgb.size()))) {
    found->second = std::make_unique<render::Target>(kSmallWidth, kSmallHeight, 1);
    glBindTexture(GL_TEXTURE_2D, found->second->texture());
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, kSmallWidth, kSmallHeight, GL_RGB, GL_UNSIGNED_BYTE, rgb.data());
  }
  return (ImTextureID) static_cast<std::uintptr_t>(found->second ? found->second->texture() : 0);
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
    const bool whole = counts_.boxes.size() == 1 &&
                       render::areaOf(counts_.boxes.front()) >= static_cast<float>(width) * static_cast<float>(height);
    if (!wanted.quick && scene != nullptr && whole &&
        (took_seconds_ > kSlowSeconds || ++unmeasured_ >= kMostUnmeasured)) {
      glFinish();
      took_seconds_ = std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
      unmeasured_ = 0;
    }
  }
  quick_ = wanted.quick;
}

void Stage::finish() {
  ImGui::Render();
  ImDrawData* const all = ImGui::GetDrawData();
  const glm::vec2 size{all->DisplaySize.x, all->DisplaySize.y};
  std::vector<ListDrawn> now;
  for (int i = 0; i < all->CmdListsCount; ++i) now.push_back(drawnOf(*all->CmdLists[i]));
  if (now.size() != lists_.size()) stale_ = {render::kEverywhere};  // which list is which isn't told
  for (std::size_t i = 0; i < std::min(now.size(), lists_.size()); ++i) {
    render::addBox(stale_, changedBox(lists_[i], now[i]));
  }
  lists_ = std::move(now);
  const std::vector<render::PixelBox> boxes = render::apart(std::exchange(stale_, {}), size);
  if (boxes.empty()) return;  // the picture is right as it stands
  share_repainted_ = 0.0F;
  for (const render::PixelBox& box : boxes) {
    target_->resolve({box.x, size.y - box.w, box.z, size.y - box.y});  // OpenGL counts rows from below
    share_repainted_ += render::areaOf(box) / (size.x * size.y);
  }
  for (int i = 0; i < all->CmdListsCount; ++i) clipTo(boxes, all->CmdLists[i]->CmdBuffer);
  ImGui_ImplOpenGL3_RenderDrawData(all);
}

#if IMGUI_VERSION_NUM >= 18700

void prepare(ImGuiIO& io) {
  io.ConfigInputTrickleEventQueue = false;  // the queue's own rule is the stricter one
}

void apply(const InputStep& step, ImGuiIO& io) {
  if (step.held) {
    io.AddKeyEvent(ImGuiMod_Ctrl, step.held->ctrl);
    io.AddKeyEvent(ImGuiMod_Shift, step.held->shift);
    io.AddKeyEvent(ImGuiMod_Alt, step.held->alt);
    io.AddKeyEvent(ImGuiMod_Super, step.held->super);
  }
  if (step.moved) io.AddMousePosEvent(step.moved->x, step.moved->y);
  if (step.button) io.AddMouseButtonEvent(static_cast<int>(step.button->button), step.button->down);
  if (step.wheel) io.AddMouseWheelEvent(step.wheel->x, step.wheel->y);
  if (step.focus) io.AddFocusEvent(step.focus->focused);
}

#else

void prepare(ImGuiIO& /*io*/) {}

void apply(const InputStep& step, ImGuiIO& io) {
  if (step.held) {
    io.KeyCtrl = step.held->ctrl;
    io.KeyShift = step.held->shift;
    io.KeyAlt = step.held->alt;
    io.KeySuper = step.held->super;
  }
  if (step.moved) io.MousePos = ImVec2(step.moved->x, step.moved->y);
  if (step.button) io.MouseDown[static_cast<int>(step.button->button)] = step.button->down;
  io.MouseWheel = step.wheel ? step.wheel->y : 0.0F;
  io.MouseWheelH = step.wheel ? step.wheel->x : 0.0F;
  if (step.focus) io.AddFocusEvent(step.focus->focused);
}

#endif

Gui::Gui() {
  IMGUI_CHECKVERSION();
  context_ = ImGui::CreateContext();
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;  // this program keeps its own settings
  io.LogFilename = nullptr;
  io.BackendPlatformName = "sillwright";
  prepare(io);
  ImGui_ImplOpenGL3_Init("#version 330 core");
}

Gui::~Gui() {
  ImGui::SetCurrentContext(context_);
  ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext(context_);
}

void Gui::begin(float width, float height, float seconds, float scale, bool dark, const InputStep& step) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  const bool rescaled = scale != scale_;
  if (rescaled) {
    if (has_texture_) ImGui_ImplOpenGL3_DestroyFontsTexture();  // before the atlas is built anew
    fonts_ = buildFonts(*io.Fonts, scale);
    io.FontDefault = fonts_.body;
    if (has_texture_) ImGui_ImplOpenGL3_CreateFontsTexture();  // at first ImGui_ImplOpenGL3_NewFrame makes it
  }
  if (rescaled || dark != dark_) applyStyle(scale, palette(dark));
  scale_ = scale;
  dark_ = dark;
  io.DisplaySize = ImVec2(width, height);
  io.DeltaTime = std::max(seconds, 1.0e-4F);  // the library asserts that time goes on
  apply(step, io);
  ImGui_ImplOpenGL3_NewFrame();
  has_texture_ = true;
  ImGui::NewFrame();
}

Ui Gui::ui(Focus& focus, std::vector<Rect>* panels) const { return {scale_, &palette(dark_), fonts_, &focus, panels}; }

void Gui::end() {
  ImGui::Render();
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

}  // namespace sillwright::view
