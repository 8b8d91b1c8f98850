// A phone's glass: fingers, and no mouse.
user_pref("dom.w3c_touch_events.enabled", 1);
user_pref("ui.primaryPointerCapabilities", 1);
user_pref("ui.allPointerCapabilities", 1);
user_pref("ui.prefersReducedMotion", 1);
user_pref("ui.useOverlayScrollbars", 1);
user_pref("widget.gtk.overlay-scrollbars.enabled", true);
// A busy machine may take so long over a tap that it looks like a long press,
// which opens a menu and does not click; and nothing is tapped twice to zoom.
user_pref("ui.click_hold_context_menus.delay", 60000);
user_pref("apz.allow_double_tap_zooming", false);
user_pref("apz.max_tap_time", 60000);
// It decides the units, whatever the system speaks.
user_pref("intl.accept_languages", "en-US, en");
user_pref("intl.locale.requested", "en-US");
// The address bar, sounds, first-run pages and questions are not for us.
user_pref("browser.aboutwelcome.enabled", false);
user_pref("browser.startup.page", 0);
user_pref("browser.startup.homepage", "about:blank");
user_pref("browser.startup.homepage_override.mstone", "ignore");
user_pref("browser.newtabpage.enabled", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("browser.tabs.warnOnClose", false);
user_pref("browser.uitour.enabled", false);
user_pref("browser.translations.enable", false);
user_pref("toolkit.startup.max_resumed_crashes", -1);
user_pref("toolkit.cosmeticAnimations.enabled", false);
user_pref("media.volume_scale", "0");
user_pref("prompts.contentPromptSubDialog", false);
user_pref("security.sandbox.content.level", 0);
user_pref("termsofuse.bypassNotification", true);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("datareporting.healthreport.uploadEnabled", false);
user_pref("toolkit.telemetry.server", "");
// Nothing calls home.
user_pref("app.update.enabled", false);
user_pref("app.normandy.enabled", false);
user_pref("browser.region.network.url", "");
user_pref("browser.safebrowsing.malware.enabled", false);
user_pref("browser.safebrowsing.phishing.enabled", false);
user_pref("browser.safebrowsing.downloads.enabled", false);
user_pref("browser.search.update", false);
user_pref("browser.search.geoSpecificDefaults", false);
user_pref("browser.topsites.contile.enabled", false);
user_pref("dom.push.connection.enabled", false);
user_pref("extensions.update.enabled", false);
user_pref("extensions.getAddons.cache.enabled", false);
user_pref("extensions.systemAddon.update.enabled", false);
user_pref("extensions.blocklist.enabled", false);
user_pref("geo.provider.testing", true);
user_pref("media.gmp-manager.updateEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("network.dns.disablePrefetch", true);
user_pref("network.http.speculative-parallel-limit", 0);
user_pref("network.prefetch-next", false);
user_pref("services.settings.server", "data:,#remote-settings-dummy/v1");
user_pref("signon.rememberSignons", false);
// One process for pages is enough, and starts sooner.
user_pref("dom.ipc.processPrelaunch.enabled", false);
user_pref("fission.autostart", false);
