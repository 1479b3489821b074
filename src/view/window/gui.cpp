#include "view/window/gui.h"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <array>

#include "view/panels/ui.h"

namespace sillwright::view {
namespace {

int indexOf(Button button) {
  constexpr std::array kIndex{0, 1, 2};  // left, right, middle: the panel library counts them so
  return kIndex[static_cast<std::size_t>(button)];
}

}  // namespace

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
  if (step.button) io.AddMouseButtonEvent(indexOf(step.button->button), step.button->down);
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
  if (step.button) io.MouseDown[indexOf(step.button->button)] = step.button->down;
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
  io.IniFilename = nullptr;
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
    if (has_texture_) ImGui_ImplOpenGL3_DestroyFontsTexture();
    fonts_ = buildFonts(*io.Fonts, scale);
    io.FontDefault = fonts_.body;
    if (has_texture_) ImGui_ImplOpenGL3_CreateFontsTexture();
  }
  if (rescaled || dark != dark_) applyStyle(scale, palette(dark));
  scale_ = scale;
  dark_ = dark;
  io.DisplaySize = ImVec2(width, height);
  io.DeltaTime = std::max(seconds, 1.0e-4F);
  apply(step, io);
  ImGui_ImplOpenGL3_NewFrame();
  has_texture_ = true;
  ImGui::NewFrame();
}

Ui Gui::ui(Focus& focus, std::vector<Rect>* panels) const {
  return {scale_, &palette(dark_), fonts_, &focus, panels};
}

void Gui::end() {
  ImGui::Render();
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

}  // namespace sillwright::view
