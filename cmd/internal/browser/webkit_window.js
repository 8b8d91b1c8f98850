// A bare window for WebKitWebDriver to work in, run by gjs. The browser that comes
// with the driver forgets everything when it ends; this one keeps it in the folder
// that it is given. It takes its look from the file "look" there, whenever that
// changes: "dark" or "light", and "reduce" for less motion.
imports.gi.versions.Gtk = "3.0";
imports.gi.versions.WebKit2 = "4.1";
const { Gio, GLib, Gtk, WebKit2 } = imports.gi;

Gtk.init(null);
const [folder] = ARGV;

const context = new WebKit2.WebContext({
  website_data_manager: new WebKit2.WebsiteDataManager({ base_data_directory: `${folder}/data`, base_cache_directory: `${folder}/cache` }),
});
context.get_cookie_manager().set_persistent_storage(`${folder}/cookies.sqlite`, WebKit2.CookiePersistentStorage.SQLITE);
context.set_preferred_languages(["en-US"]); // as the other engines have it, whatever the system speaks
context.set_automation_allowed(true);
context.connect("automation-started", (_, session) => {
  const info = new WebKit2.ApplicationInfo();
  info.set_name("window");
  session.set_application_info(info);
  session.connect("create-web-view", open);
});

// What a document loads is cut off as it is left, which the engine calls an error. So
// each says when it begins and when it is being left; others than the driver see it too.
let windows = 0;
function tell() {
  const name = `window ${++windows}`;
  const script = `console.log("${name} begins"); addEventListener("beforeunload", () => console.log("${name} is left"));`;
  return new WebKit2.UserScript(script, WebKit2.UserContentInjectedFrames.TOP_FRAME, WebKit2.UserScriptInjectionTime.START, null, null);
}

function open() {
  const view = new WebKit2.WebView({ web_context: context, is_controlled_by_automation: true });
  view.get_user_content_manager().add_script(tell());
  const settings = view.get_settings();
  settings.enable_write_console_messages_to_stdout = true;

  // Without a frame the window is as big as the page, and may be as small as any phone.
  const window = new Gtk.Window({ decorated: false, default_width: 390, default_height: 844 });
  window.add(view);
  view.connect("web-process-terminated", () => print("CRASHED"));
  view.connect("close", () => window.destroy());
  window.show_all();
  window.present(); // no window manager gives it the keyboard, and what has the focus shows it only then
  return view;
}

const file = Gio.File.new_for_path(`${folder}/look`);
function look() {
  const [, data] = GLib.file_get_contents(file.get_path());
  const words = new TextDecoder().decode(data);
  const settings = Gtk.Settings.get_default();
  settings.gtk_application_prefer_dark_theme = words.includes("dark");
  settings.gtk_enable_animations = !words.includes("reduce");
}
look();
const watch = file.monitor_file(Gio.FileMonitorFlags.NONE, null);
watch.connect("changed", look);

Gtk.main();
