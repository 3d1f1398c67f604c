#!/usr/bin/python3
"""WebKitGTK pages in windows of phone size, driven by WebKitWebDriver.

WebKitGTK's own test browser forgets everything when it closes. This one keeps
what it is told in --profile, as a phone does, so that the tests can close or
kill it and look what is still there.
"""

import argparse
import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import GLib, Gtk, WebKit2  # noqa: E402


def main():
    asked = argparse.ArgumentParser()
    asked.add_argument("--profile", required=True)
    asked.add_argument("--downloads", required=True)
    asked.add_argument("--width", type=int, required=True)
    asked.add_argument("--height", type=int, required=True)
    asked = asked.parse_args()

    context = WebKit2.WebContext(
        website_data_manager=WebKit2.WebsiteDataManager(
            base_data_directory=asked.profile + "/data",
            base_cache_directory=asked.profile + "/cache",
        )
    )
    context.set_automation_allowed(True)
    context.connect("automation-started", lambda _, session: started(session, context, asked))
    context.connect("download-started", lambda _, download: keep(download, asked.downloads))
    GLib.timeout_add_seconds(3600, Gtk.main_quit)  # a forgotten window closes itself
    Gtk.main()


def keep(download, folder):
    """Saves a file where the tests look for it, as a phone does where its owner looks."""

    def named(download, name):
        download.set_destination(GLib.filename_to_uri(folder + "/" + name, None))
        return True

    download.connect("decide-destination", named)


def started(session, context, asked):
    about = WebKit2.ApplicationInfo()
    about.set_name("webkit-phone")
    about.set_version(1, 0, 0)
    session.set_application_info(about)
    session.connect("create-web-view", lambda _: open_page(context, asked))


def open_page(context, asked):
    settings = WebKit2.Settings()
    settings.set_enable_write_console_messages_to_stdout(True)
    view = WebKit2.WebView(
        web_context=context, settings=settings, is_controlled_by_automation=True
    )
    # A bare window: all of it is page.
    window = Gtk.Window(decorated=False)
    window.set_default_size(asked.width, asked.height)
    window.add(view)
    window.connect("destroy", lambda _: closed())
    view.connect("close", lambda _: window.destroy())
    window.show_all()
    view.grab_focus()
    focus(window)
    return view


def closed():
    """Quits with the last window, or gives the focus to the one before."""
    left = [window for window in Gtk.Window.list_toplevels() if window.get_visible()]
    if not left:
        Gtk.main_quit()
    for window in left:
        focus(window)


def focus(window):
    """Gives the input focus, as a window manager would."""
    window.get_window().focus(0)


main()
