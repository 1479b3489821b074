#include "view/window/gui.h"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>

namespace sillwright::view {

Gui::Gui() {
  IMGUI_CHECKVERSION();
  context_ = ImGui::CreateContext();
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.BackendPlatformName = "sillwright";
  io.BackendFlags |= ImGuiBackendFlags_HasMouseCursors;
  io.ConfigInputTextCursorBlink = false;  // nothing is drawn while nothing changes
  io.MouseDragThreshold = 4.0F;
  mapKeys(io);
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

void Gui::setClipboard(const char* (*read)(void*), void (*write)(void*, const char*), void* user) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.GetClipboardTextFn = read;
  io.SetClipboardTextFn = write;
  io.ClipboardUserData = user;
}

}  // namespace sillwright::view
