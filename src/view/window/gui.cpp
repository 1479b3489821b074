#include "view/window/gui.h"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <array>

#include "view/panels/ui.h"

namespace sillwright::view {
namespace {

/// Our keys that the panel library has names for.
struct KeyName {
  Key ours;
  ImGuiKey theirs;
};
#if IMGUI_VERSION_NUM >= 18700
constexpr ImGuiKey kTheirKeypadEnter = ImGuiKey_KeypadEnter;
#else
constexpr ImGuiKey kTheirKeypadEnter = ImGuiKey_KeyPadEnter;
#endif
constexpr std::array kKeyNames{
    KeyName{Key::Tab, ImGuiKey_Tab},
    KeyName{Key::Left, ImGuiKey_LeftArrow},
    KeyName{Key::Right, ImGuiKey_RightArrow},
    KeyName{Key::Up, ImGuiKey_UpArrow},
    KeyName{Key::Down, ImGuiKey_DownArrow},
    KeyName{Key::PageUp, ImGuiKey_PageUp},
    KeyName{Key::PageDown, ImGuiKey_PageDown},
    KeyName{Key::Home, ImGuiKey_Home},
    KeyName{Key::End, ImGuiKey_End},
    KeyName{Key::Insert, ImGuiKey_Insert},
    KeyName{Key::Delete, ImGuiKey_Delete},
    KeyName{Key::Backspace, ImGuiKey_Backspace},
    KeyName{Key::Space, ImGuiKey_Space},
    KeyName{Key::Enter, ImGuiKey_Enter},
    KeyName{Key::Escape, ImGuiKey_Escape},
    KeyName{Key::KeypadEnter, kTheirKeypadEnter},
    KeyName{Key::A, ImGuiKey_A},
    KeyName{Key::C, ImGuiKey_C},
    KeyName{Key::V, ImGuiKey_V},
    KeyName{Key::X, ImGuiKey_X},
    KeyName{Key::Y, ImGuiKey_Y},
    KeyName{Key::Z, ImGuiKey_Z},
};

int indexOf(Button button) {
  constexpr std::array kIndex{0, 1, 2};  // left, right, middle: the panel library counts them so
  return kIndex[static_cast<std::size_t>(button)];
}

}  // namespace

#if IMGUI_VERSION_NUM >= 18700

void mapKeys(ImGuiIO& io) {
  io.ConfigInputTrickleEventQueue = false;
}  // our own rule is the stricter one

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
  for (const KeyChanged& change : step.keys) {
    const auto name = std::find_if(kKeyNames.begin(), kKeyNames.end(),
                                   [&](const KeyName& known) { return known.ours == change.key; });
    if (name != kKeyNames.end()) io.AddKeyEvent(name->theirs, change.down);
  }
  for (const char32_t character : step.typed) io.AddInputCharacter(static_cast<unsigned>(character));
  if (step.focus) io.AddFocusEvent(step.focus->focused);
}

#else

void mapKeys(ImGuiIO& io) {
  for (const KeyName& name : kKeyNames) io.KeyMap[name.theirs] = static_cast<int>(name.ours);
}

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
  for (const KeyChanged& change : step.keys) io.KeysDown[static_cast<std::size_t>(change.key)] = change.down;
  for (const char32_t character : step.typed) io.AddInputCharacter(static_cast<unsigned>(character));
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
