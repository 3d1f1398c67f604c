//! Every screen of the app in every look: its picture, what axe-core finds, and the faults of
//! its layout; and the order in which keys and a screen reader go through it.

mod keyboard;
mod look;
mod screens;

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::time::Duration;

use tokio::time::sleep;

use self::keyboard::Order;
use self::look::{Look, Setting, USUAL};
use self::screens::{Book, CORRECT, ENTRY, FORECAST, Ids, STOP, Screen};
use crate::axe::check_accessibility;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult, ensure};
use crate::layout;
use crate::phone::Phone;
use crate::scenario::steps::enter_demo;

/// The written order, and where a run writes it anew.
const READING_ORDER: &str = include_str!("../reading_order.md");
const READING_ORDER_FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/reading_order.md");

/// Looks at the screens whose name contains `only`, saves a picture of each, and prints a table
/// and the faults. In Chromium the reading order is written anew if all are looked at. Whether
/// there is no fault.
pub async fn measure(
    environment: &TestEnvironment,
    engines: &[Engine],
    only: &str,
) -> TestResult<bool> {
    let mut holds = true;
    for engine in engines {
        let mut phone = Phone::start(environment, *engine, STANDARD_PHONE).await?;
        let pictures = environment.screens.join(engine.name()).join("looks");
        let mut table = Table { engine: *engine, pictures, faults: BTreeMap::new() };
        let mut order = Order::new(only);
        for book in [Book::Empty, Book::Demo] {
            look_at(&mut phone, book, only, &mut table, &mut order).await?;
        }
        phone.close().await;
        holds &= table.print();
        if *engine == Engine::Chromium {
            order.write(READING_ORDER, READING_ORDER_FILE)?;
        }
    }
    Ok(holds)
}

/// The short form, once in the usual look: axe-core and the layout of every screen.
///
/// # Errors
/// The faults of all screens.
pub async fn check(phone: &mut Phone) -> TestResult {
    let mut faults = Vec::new();
    for book in [Book::Empty, Book::Demo] {
        let ids = open_book(phone, book).await?;
        for screen in screens::ALL.iter().filter(|screen| screen.books.contains(&book)) {
            let found = match open(phone, screen, &ids).await {
                Ok(()) => faults_of(phone, &USUAL, screen.name).await?,
                Err(failure) => vec![failure.to_string()],
            };
            let title = |fault| format!("{}-{}: {fault}", book.name(), screen.name);
            faults.extend(found.into_iter().map(title));
            close_sheet(phone).await?;
        }
    }
    ensure(faults.is_empty(), || format!("{} faults: {}", faults.len(), faults.join("\n         ")))
}

async fn look_at(
    phone: &mut Phone,
    book: Book,
    only: &str,
    table: &mut Table,
    order: &mut Order,
) -> TestResult {
    let title = |screen: &Screen| format!("{}-{}", book.name(), screen.name);
    let chosen = screens::ALL.iter().filter(|screen| screen.books.contains(&book));
    let chosen: Vec<&Screen> = chosen.filter(|screen| title(screen).contains(only)).collect();
    if chosen.is_empty() {
        return Ok(());
    }
    let ids = open_book(phone, book).await?;
    for screen in chosen {
        let title = title(screen);
        USUAL.apply(phone).await?;
        if let Err(failure) = open(phone, screen, &ids).await {
            table.add(&title, &USUAL, vec![failure.to_string()]);
            continue;
        }
        for look in look::ALL.iter().filter(|look| look.is_for(phone.engine)) {
            look.apply(phone).await?;
            let faults = faults_of(phone, look, &title).await?;
            table.save(&title, look, &look.picture(phone).await?)?;
            table.add(&title, look, faults);
        }
        USUAL.apply(phone).await?;
        if phone.engine == Engine::Chromium {
            let faults = order.add(phone, &title, screen).await?;
            table.add(&title, &USUAL, faults);
        }
        let faults = close_sheet(phone).await?;
        table.add(&title, &USUAL, faults.into_iter().collect());
    }
    Ok(())
}

async fn open_book(phone: &mut Phone, book: Book) -> TestResult<Ids> {
    phone.open("/help").await?;
    // Fonts come late the first time, and are then not used.
    phone.open("/help").await?;
    if book == Book::Empty {
        return Ok(Ids::none());
    }
    enter_demo(phone).await?;
    Ids::of_demo(phone).await
}

/// Opens a screen from the one that is open, as a followed link does.
async fn open(phone: &Phone, screen: &Screen, ids: &Ids) -> TestResult {
    let path = ids.fill(screen.path);
    ensure(!path.contains('{'), || format!("an id is missing in {path}"))?;
    phone.execute(&FOLLOW.replace("PATH", &path)).await?;
    phone
        .wait_for(&path, || async {
            Ok(phone.execute_async(&SHOWN.replace("PATH", &path)).await? == true)
        })
        .await?;
    match screen.press {
        None => return Ok(()),
        // As a screen reader does: neither by touch nor by key.
        Some(STOP) => _ = phone.execute("document.querySelector('.hold').click()").await?,
        Some(FORECAST) => _ = phone.execute("document.querySelector('.outlook').click()").await?,
        Some(ENTRY) => open_entry(phone, "").await?,
        Some(CORRECT) => {
            // Not a plan, which cannot be edited.
            open_entry(phone, "details.part ~ details.part ").await?;
            phone.tap("Edit").await?;
        }
        Some(name) => phone.press(name).await?,
    }
    let opened = "return !!document.querySelector('dialog[open]')";
    phone.wait_for("the sheet", || async { Ok(phone.execute(opened).await? == true) }).await?;
    sleep(Duration::from_millis(150)).await;
    Ok(())
}

/// Opens the first entry of the timeline, or of a part of it.
async fn open_entry(phone: &Phone, part: &str) -> TestResult {
    let unfold =
        "document.querySelectorAll('details.part').forEach((part) => { part.open = true; })";
    phone.execute(unfold).await?;
    let button = format!("{part}.timeline button.button");
    phone.find("any", &button).await?.click().await?;
    Ok(())
}

/// Closes an open sheet with its button. The focus must go back to the page; returns the fault.
async fn close_sheet(phone: &Phone) -> TestResult<Option<String>> {
    let found = phone.execute_async(CLOSE).await?;
    Ok(found.as_str().map(str::to_owned))
}

/// What axe-core and the checks of the layout find.
async fn faults_of(phone: &Phone, look: &Look, title: &str) -> TestResult<Vec<String>> {
    if look.setting == Setting::Print {
        let pressable = phone.execute(PRESSABLE).await?;
        let pressable = pressable.as_array().into_iter().flatten();
        return Ok(pressable.filter_map(|one| one.as_str().map(str::to_owned)).collect());
    }
    let mut faults = layout::faults(phone).await?;
    faults.extend(layout::covered(phone).await?);
    match check_accessibility(phone, title).await {
        Err(TestFailure::Check(found)) => faults.push(found),
        other => other?,
    }
    Ok(faults)
}

/// What was found, by screen and look.
struct Table {
    engine: Engine,
    pictures: PathBuf,
    faults: BTreeMap<String, BTreeMap<&'static str, Vec<String>>>,
}

impl Table {
    fn add(&mut self, title: &str, look: &Look, faults: Vec<String>) {
        let of_screen = self.faults.entry(title.to_owned()).or_default();
        of_screen.entry(look.name).or_default().extend(faults);
    }

    fn save(&self, title: &str, look: &Look, png: &[u8]) -> TestResult {
        let folder = self.pictures.join(look.name);
        fs::create_dir_all(&folder)?;
        Ok(fs::write(folder.join(format!("{title}.png")), png)?)
    }

    /// Prints the faults, and a table of their numbers. Whether there are none.
    fn print(&self) -> bool {
        for (title, looks) in &self.faults {
            for (look, faults) in looks {
                faults.iter().for_each(|fault| println!("{title}, {look}: {fault}"));
            }
        }
        let looks = look::ALL.iter().filter(|look| look.is_for(self.engine));
        let looks: Vec<&str> = looks.map(|look| look.name).collect();
        let heads: String = looks.iter().map(|look| format!(" {look:>9}")).collect();
        println!("\n{:<26}{heads}", self.engine.name());
        for (title, of_screen) in &self.faults {
            let cells = looks.iter().map(|look| match of_screen.get(look).map(Vec::len) {
                None => "-".to_owned(),
                Some(0) => "ok".to_owned(),
                Some(faults) => faults.to_string(),
            });
            let cells: String = cells.map(|cell| format!(" {cell:>9}")).collect();
            println!("{title:<26}{cells}");
        }
        let all = self.faults.values().flat_map(BTreeMap::values).map(Vec::len).sum::<usize>();
        let pictures = self.pictures.display();
        println!("{} screens, {all} faults; pictures in {pictures}", self.faults.len());
        all == 0 && !self.faults.is_empty()
    }
}

/// Follows a link to PATH.
const FOLLOW: &str = r"
    const link = document.createElement('a');
    link.href = new URL('PATH'.slice(1), document.baseURI).href;
    document.querySelector('main').append(link);
    link.click();
    link.remove();
";

/// Whether PATH is open and the page has not changed for a while.
const SHOWN: &str = r"
    if (!(location.pathname + location.search).endsWith('PATH')) return false;
    const main = document.querySelector('main.page');
    if (!main?.querySelector('h1, .ring')) return false;
    let changed = false;
    const watch = new MutationObserver((all) => {
        changed ||= all.some(({ target }) => !(target.parentElement ?? target).closest?.('[role=timer], .ring, .bath-row'));
    });
    watch.observe(document.body, { childList: true, subtree: true });
    await new Promise((then) => setTimeout(then, 150));
    watch.disconnect();
    const loading = [...document.querySelectorAll('main img')].some((image) => !image.complete);
    return !changed && !loading;
";

/// Closes the open sheet; returns where the focus went if that is nowhere.
const CLOSE: &str = r"
    const dialog = [...document.querySelectorAll('dialog[open]')].at(-1);
    if (!dialog) return null;
    const title = dialog.getAttribute('aria-label');
    dialog.querySelector('.page-head button').click();
    await new Promise((then) => setTimeout(then, 200));
    if (document.querySelector('dialog[open]')) return `the sheet “${title}” does not close`;
    return null;
";

/// What can be pressed and would stand on paper, or belongs to the frame of the app.
const PRESSABLE: &str = r"
    const found = document.querySelectorAll('button:not(.picture-button), a.button, nav, .places, .notice, .demo-ribbon, .alarms, dialog[open]');
    return [...found].filter((e) => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length)
        .filter((e) => !e.parentElement.closest('nav, .notice, .demo-ribbon, .alarms, dialog'))
        .map((e) => `on paper: ${e.tagName.toLowerCase()}.${e.className} “${(e.innerText || '').trim().replace(/\s+/g, ' ').slice(0, 40)}”`);
";
