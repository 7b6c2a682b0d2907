//! The browser's own database: one transaction for each deed, and what went wrong with it.

use super::records::{number, read_number};
use crate::dom::{clock, local, room};
use crate::model::faults::StorageFault;
use dappledome::keep::content::Kind;
use futures::channel::oneshot;
use futures::future::{Either, select};
use idb::{Database, DatabaseEvent, Error, Factory, ObjectStore, ObjectStoreParams, TransactionMode};
use leptos::task::spawn_local;
use std::cell::{Cell, RefCell};
use std::future::IntoFuture;
use std::time::Duration;
use wasm_bindgen::JsValue;
use web_sys::DomException;

const NAME: &str = "dappledome";
/// Counted up with every store that is added.
const VERSION: u32 = 2;

/// The pieces' recipes: long, and read one at a time.
pub const PIECES: &str = "pieces";
/// Names and days: short, and read all at once.
pub const CARDS: &str = "cards";
/// Small pictures of pieces and photos of the log, read when they come into sight.
pub const PICTURES: &str = "pictures";
/// Orders, the bench under all of them, and the entries of the log: read once, when the page has come to rest.
const ORDERS: &str = "orders";
const BENCH: &str = "bench";
const LOG: &str = "log";
const STORES: [&str; 6] = [PIECES, CARDS, PICTURES, ORDERS, BENCH, LOG];

/// Where texts of a kind are.
pub fn store_of(kind: Kind) -> &'static str {
    match kind {
        Kind::Piece => PIECES,
        Kind::Order => ORDERS,
        Kind::Bench => BENCH,
        Kind::Entry => LOG,
    }
}

/// How much room there must be before the database is opened in doubt, bytes: a browser that opens one without room has
/// been seen to clear it.
const ROOM: usize = 1 << 18;
/// How long a database must have been closed until the browser opens it from the disk again. The browser was measured to keep
/// it for 2 s.
const FRESH: Duration = Duration::from_millis(3500);

/// Where it is noted that the page was in doubt, and why.
const NOTED: &str = "dappledome.doubt";
/// The reasons for doubt, as they are noted.
const DOUBTS: [(StorageFault, &str); 3] =
    [(StorageFault::Full, "full"), (StorageFault::Disk, "disk"), (StorageFault::Broken, "broken")];

thread_local! {
    /// The database as it was opened last. Another tab or the browser may have had it closed meanwhile.
    static OPENED: RefCell<Option<Database>> = const { RefCell::new(None) };
    /// Why it is in doubt that what is written is kept.
    static DOUBT: Cell<Option<StorageFault>> = const { Cell::new(None) };
    /// Whether it must stay closed, to be opened from the disk afterwards.
    static SHUT: Cell<bool> = const { Cell::new(false) };
}

/// Why it is in doubt that what is written is kept; none if it is not.
pub fn doubt() -> Option<StorageFault> {
    DOUBT.get()
}

/// Everything was read back: what is written counts as kept again.
pub fn trust() {
    DOUBT.set(None);
    local::forget(NOTED);
}

/// Goes on in doubt where the last page was ended in it: before anything is opened.
pub fn go_on_in_doubt() {
    let noted = local::kept(NOTED);
    DOUBT.set(DOUBTS.into_iter().find(|(_, word)| *word == noted).map(|(fault, _)| fault));
}

/// Doubts what is written from now on. The first reason holds until there is none any more: after it the browser says no
/// more than that the database is closed.
fn begin_to_doubt(fault: StorageFault) -> StorageFault {
    let fault = doubt().unwrap_or(fault);
    DOUBT.set(Some(fault));
    if let Some((_, word)) = DOUBTS.iter().find(|(one, _)| *one == fault) {
        local::keep(NOTED, word);
    }
    fault
}

/// Closes the database for so long that the next who opens it gets it from the disk.
pub async fn close_for_long() {
    SHUT.set(true);
    close();
    clock::pause(FRESH).await;
    SHUT.set(false);
}

fn close() {
    if let Some(database) = OPENED.take() {
        database.close();
    }
}

/// One transaction over all stores: what is done in it is done wholly or not at all.
pub struct Transaction(idb::Transaction);

impl Transaction {
    /// Begins to read.
    pub async fn to_read() -> Result<Self, StorageFault> {
        Self::begin(TransactionMode::ReadOnly).await
    }

    /// Begins to read and write.
    pub async fn to_write() -> Result<Self, StorageFault> {
        Self::begin(TransactionMode::ReadWrite).await
    }

    async fn begin(mode: TransactionMode) -> Result<Self, StorageFault> {
        let begun = OPENED.with_borrow(|opened| opened.as_ref()?.transaction(&STORES, mode).ok());
        if let Some(transaction) = begun {
            return Ok(Self(transaction));
        }
        let database = open().await?;
        let begun = database.transaction(&STORES, mode);
        if let Some(before) = OPENED.replace(Some(database)) {
            before.close();
        }
        begun.map(Self).map_err(fault)
    }

    /// What is stored under a number; none if nothing is.
    pub async fn get(&self, store: &str, id: u64) -> Result<Option<JsValue>, StorageFault> {
        self.store(store)?.get(number(id)).map_err(fault)?.await.map_err(fault)
    }

    /// Everything that is in a store.
    pub async fn all(&self, store: &str) -> Result<Vec<JsValue>, StorageFault> {
        self.store(store)?.get_all(None, None).map_err(fault)?.await.map_err(fault)
    }

    /// The numbers under which something is in a store.
    pub async fn ids(&self, store: &str) -> Result<Vec<u64>, StorageFault> {
        let keys = self.store(store)?.get_all_keys(None, None).map_err(fault)?.await.map_err(fault)?;
        Ok(keys.iter().filter_map(read_number).collect())
    }

    /// Stores something under a number. Whether it could be stored shows at the end.
    pub fn put(&self, store: &str, id: u64, value: &JsValue) -> Result<(), StorageFault> {
        self.store(store)?.put(value, Some(&number(id))).map(drop).map_err(fault)
    }

    /// Takes away whatever is stored under a number.
    pub fn delete(&self, id: u64) -> Result<(), StorageFault> {
        STORES.iter().try_for_each(|store| self.store(store)?.delete(number(id)).map(drop).map_err(fault))
    }

    /// Ends it once something was written, and learns whether that is kept: that the storage is full shows only now. The
    /// library's own future does not tell why a transaction was given up.
    pub async fn end(mut self) -> Result<(), StorageFault> {
        let (tell_complete, complete) = oneshot::channel();
        let (tell_abort, abort) = oneshot::channel();
        self.0.on_complete(move |_| tell(tell_complete));
        self.0.on_abort(move |_| tell(tell_abort));
        match select(complete, abort).await {
            Either::Left(_) => Ok(()),
            Either::Right(_) => Err(self.0.error().map_or_else(given_up, |exception| named(&exception))),
        }
    }

    fn store(&self, name: &str) -> Result<ObjectStore, StorageFault> {
        self.0.object_store(name).map_err(fault)
    }
}

/// Opens the database, unless an older program in another tab keeps it from being opened: then nobody waits here.
async fn open() -> Result<Database, StorageFault> {
    if let Some(doubt) = doubt()
        && (SHUT.get() || !room::is_there(ROOM).await)
    {
        return Err(doubt);
    }
    let mut request = Factory::new().and_then(|factory| factory.open(NAME, Some(VERSION))).map_err(fault)?;
    let (tell_blocked, blocked) = oneshot::channel();
    request.on_blocked(move |_| tell(tell_blocked));
    request.on_upgrade_needed(|event| event.database().iter().for_each(make_stores));
    match select(request.into_future(), blocked).await {
        Either::Left((opened, _)) => {
            let mut database = opened.map_err(fault)?;
            // A newer program in another tab waits for us to close it; what comes next here opens it again.
            database.on_version_change(|event| event.database().iter().for_each(Database::close));
            Ok(database)
        }
        Either::Right((_, opening)) => {
            // Once it can be opened after all it must keep nobody else waiting.
            spawn_local(async move { opening.await.iter().for_each(Database::close) });
            Err(StorageFault::Blocked)
        }
    }
}

fn tell(waiting: oneshot::Sender<()>) {
    // Whoever does not wait any more need not be told.
    let _ = waiting.send(());
}

fn make_stores(database: &Database) {
    for name in STORES {
        // A store that is there already stays as it is; one that cannot be made shows with the first transaction.
        let _ = database.create_object_store(name, ObjectStoreParams::new());
    }
}

fn fault(error: Error) -> StorageFault {
    match error {
        Error::DomException(exception) => named(&exception),
        _ => StorageFault::Forbidden,
    }
}

/// Without a reason the browser gave up, as it does when there is no room at all.
fn given_up() -> StorageFault {
    begin_to_doubt(StorageFault::Full)
}

/// What an exception means. One that leaves doubt is remembered.
fn named(exception: &DomException) -> StorageFault {
    let fault = meaning(&exception.name(), &exception.message());
    if fault.leaves_doubt() { begin_to_doubt(fault) } else { fault }
}

fn meaning(name: &str, message: &str) -> StorageFault {
    match name {
        "QuotaExceededError" => StorageFault::Full,
        "VersionError" => StorageFault::Newer,
        "SecurityError" | "NotAllowedError" | "InvalidStateError" | "NotSupportedError" => {
            StorageFault::Forbidden
        }
        _ if ["NO_SPACE", "full disk", "no space"].iter().any(|words| message.contains(words)) => {
            StorageFault::Disk
        }
        _ => StorageFault::Broken,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn full_is_told_from_forbidden_and_from_broken() {
        // As Chromium 156 says it on a disk without room.
        let torn = "Connection is closing because of: IO error: 000003.log: FILE_ERROR_NO_SPACE (ChromeMethodBFE: 3)";
        let opening = "Encountered full disk while opening backing store for indexedDB.open.";
        for (name, message, fault) in [
            ("QuotaExceededError", "", StorageFault::Full),
            ("UnknownError", torn, StorageFault::Disk),
            ("UnknownError", opening, StorageFault::Disk),
            (
                "UnknownError",
                "Internal error opening backing store for indexedDB.open.",
                StorageFault::Broken,
            ),
            ("AbortError", "The transaction was aborted.", StorageFault::Broken),
            ("SecurityError", "no", StorageFault::Forbidden),
            ("InvalidStateError", "A mutation operation was attempted", StorageFault::Forbidden),
            ("VersionError", "", StorageFault::Newer),
        ] {
            assert_eq!(meaning(name, message), fault, "{name}: {message}");
        }
    }
}
