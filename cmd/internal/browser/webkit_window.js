// A bare window for WebKitWebDriver to work in, run by gjs. The browser that comes
// with the driver forgets everything when it ends; this one keeps it in the folder
// that it is given. It takes its look from the file "look" there, whenever that
// changes: "dark" or "light", and "reduce" for less motion. What is in "preload"
// there runs in each document before its own scripts; the window says when it has it.
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
  return atStart(`console.log("${name} begins"); addEventListener("beforeunload", () => console.log("${name} is left"));`);
}

function atStart(script) {
  return new WebKit2.UserScript(script, WebKit2.UserContentInjectedFrames.TOP_FRAME, WebKit2.UserScriptInjectionTime.START, null, null);
}

const managers = []; // of each window what its documents get
function open() {
  const view = new WebKit2.WebView({ web_context: context, is_controlled_by_automation: true });
  const manager = view.get_user_content_manager();
  managers.push({ manager, tells: tell() });
  preload();
  const settings = view.get_settings();
  settings.enable_write_console_messages_to_stdout = true;

  // Without a frame the window is as big as the page, and may be as small as any phone.
  const window = new Gtk.Window({ decorated: false, default_width: 390, default_height: 844 });
  window.add(view);
  // The engine prints nothing of an answer that is an error.
  view.connect("resource-load-started", (_view, resource) => {
    resource.connect("finished", () => {
      const status = resource.get_response()?.get_status_code() ?? 0;
      if (status >= 400) print(`CONSOLE NETWORK ERROR status ${status} ${resource.get_uri()}`);
    });
  });
  view.connect("web-process-terminated", () => print("CRASHED"));
  view.connect("close", () => window.destroy());
  window.show_all();
  window.present(); // no window manager gives it the keyboard, and what has the focus shows it only then
  return view;
}

function read(name) {
  const [, data] = GLib.file_get_contents(`${folder}/${name}`);
  return new TextDecoder().decode(data);
}

function look() {
  const words = read("look");
  const settings = Gtk.Settings.get_default();
  settings.gtk_application_prefer_dark_theme = words.includes("dark");
  settings.gtk_enable_animations = !words.includes("reduce");
}
look();

function preload() {
  const script = read("preload");
  for (const { manager, tells } of managers) {
    manager.remove_all_scripts();
    manager.add_script(tells);
    if (script) manager.add_script(atStart(script));
  }
}

/** Calls back whenever another file is put in the place of one. */
function watch(name, changed) {
  const watching = Gio.File.new_for_path(`${folder}/${name}`).monitor_file(Gio.FileMonitorFlags.NONE, null);
  watching.connect("changed", (_file, _other, _now, event) => event === Gio.FileMonitorEvent.CHANGES_DONE_HINT && changed());
  return watching;
}
const watches = [watch("look", look), watch("preload", () => (preload(), print("PRELOADED")))];

Gtk.main();
