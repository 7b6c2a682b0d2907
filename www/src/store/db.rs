//! The browser's own database, as thinly wrapped as it can be: open it, do something in one transaction, learn what
//! went wrong.

use js_sys::{Array, Promise, Reflect};
use leptos::prelude::window;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction,
    IdbTransactionMode,
};

const NAME: &str = "dappledome";
const VERSION: u32 = 1;

/// The pieces' recipes: long, and read one at a time.
pub const PIECES: &str = "pieces";
/// Names and days: short, and read all at once.
pub const CARDS: &str = "cards";
/// Small pictures, read when they come into sight.
pub const PICTURES: &str = "pictures";
const STORES: [&str; 3] = [PIECES, CARDS, PICTURES];

/// Why something is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// There is no room.
    Full,
    /// There is no database, or no leave to use it.
    Forbidden,
    /// A newer program has already changed it.
    Newer,
    /// Another tab with an older program must be closed first.
    Blocked,
}

impl Fault {
    fn of(fault: &JsValue) -> Self {
        let name = fault.dyn_ref::<DomException>().map(DomException::name).unwrap_or_default();
        match name.as_str() {
            "QuotaExceededError" => Self::Full,
            "VersionError" => Self::Newer,
            _ => Self::Forbidden,
        }
    }
}

thread_local! {
    /// The open database, until another tab or the browser wants it closed.
    static OPEN: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
}

/// One transaction over all stores: what is done in it is done wholly or not at all.
pub struct Deal {
    transaction: IdbTransaction,
    end: JsFuture,
}

impl Deal {
    /// Begins to read.
    pub async fn to_read() -> Result<Self, Fault> {
        Self::begin(IdbTransactionMode::Readonly).await
    }

    /// Begins to read and write.
    pub async fn to_write() -> Result<Self, Fault> {
        Self::begin(IdbTransactionMode::Readwrite).await
    }

    async fn begin(mode: IdbTransactionMode) -> Result<Self, Fault> {
        let names: Array = STORES.iter().map(|name| JsValue::from_str(name)).collect();
        let known = OPEN.with_borrow(Clone::clone);
        let begun = known.map(|db| db.transaction_with_str_sequence_and_mode(&names, mode));
        let transaction = match begun {
            Some(Ok(transaction)) => transaction,
            // Not open yet, or closed behind our back.
            _ => {
                let db = open().await?;
                let begun = db.transaction_with_str_sequence_and_mode(&names, mode);
                OPEN.set(Some(db));
                begun.map_err(|fault| Fault::of(&fault))?
            }
        };
        // It resolves either way: a promise that is refused while nobody waits for it is an error of the page.
        let end = JsFuture::from(Promise::new(&mut |resolve, _| {
            transaction.set_oncomplete(Some(&resolve));
            transaction.set_onabort(Some(&resolve));
        }));
        Ok(Self { transaction, end })
    }

    /// One of the stores.
    pub fn store(&self, name: &str) -> Result<IdbObjectStore, Fault> {
        self.transaction.object_store(name).map_err(|fault| Fault::of(&fault))
    }

    /// What is stored under a number; undefined if nothing is.
    pub async fn get(&self, store: &str, id: u64) -> Result<JsValue, Fault> {
        result(&asked(self.store(store)?.get(&key(id)))?).await
    }

    /// Stores something under a number. Whether it could be stored shows at the end.
    pub fn put(&self, store: &str, id: u64, value: &JsValue) -> Result<(), Fault> {
        asked(self.store(store)?.put_with_key(value, &key(id))).map(drop)
    }

    /// Takes away whatever is stored under a number.
    pub fn delete(&self, id: u64) -> Result<(), Fault> {
        STORES.iter().try_for_each(|store| asked(self.store(store)?.delete(&key(id))).map(drop))
    }

    /// Ends it, and learns whether what was written is kept: that the storage is full shows only now.
    pub async fn end(self) -> Result<(), Fault> {
        let event = self.end.await.map_err(|fault| Fault::of(&fault))?;
        let kind = Reflect::get(&event, &"type".into()).ok().and_then(|kind| kind.as_string());
        if kind.as_deref() == Some("complete") {
            return Ok(());
        }
        // Without a reason the browser gave up, as it does when there is no room at all.
        Err(self.transaction.error().map_or(Fault::Full, |fault| Fault::of(&fault)))
    }
}

/// A number as a key.
fn key(id: u64) -> JsValue {
    JsValue::from_f64(id as f64)
}

/// A request that was made, or why it was not.
pub fn asked(request: Result<IdbRequest, JsValue>) -> Result<IdbRequest, Fault> {
    request.map_err(|fault| Fault::of(&fault))
}

/// What a request brings.
pub async fn result(request: &IdbRequest) -> Result<JsValue, Fault> {
    let answered = Promise::new(&mut |resolve, refuse| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&refuse));
    });
    match JsFuture::from(answered).await {
        Ok(_) => request.result().map_err(|fault| Fault::of(&fault)),
        Err(_) => {
            let fault = request.error().ok().flatten();
            Err(fault.map_or(Fault::Forbidden, |fault| Fault::of(&fault)))
        }
    }
}

async fn open() -> Result<IdbDatabase, Fault> {
    let factory = window().indexed_db().ok().flatten().ok_or(Fault::Forbidden)?;
    let request = factory.open_with_u32(NAME, VERSION).map_err(|fault| Fault::of(&fault))?;
    let making = request.clone();
    let make = Closure::<dyn Fn()>::new(move || make_stores(&making));
    request.set_onupgradeneeded(Some(make.as_ref().unchecked_ref()));
    let db: IdbDatabase = opened(&request).await?.unchecked_into();
    let (closing, going) = (db.clone(), || OPEN.set(None));
    // A newer program in another tab waits for us to close it; the browser closes it when its data are cleared.
    let give_way = Closure::<dyn Fn()>::new(move || {
        closing.close();
        OPEN.set(None);
    });
    db.set_onversionchange(Some(give_way.into_js_value().unchecked_ref()));
    db.set_onclose(Some(Closure::<dyn Fn()>::new(going).into_js_value().unchecked_ref()));
    Ok(db)
}

/// The database, unless an older program in another tab keeps it from being opened: then we do not wait here.
async fn opened(request: &IdbOpenDbRequest) -> Result<JsValue, Fault> {
    let blocked = Promise::new(&mut |resolve, _| request.set_onblocked(Some(&resolve)));
    let answered = Promise::new(&mut |resolve, _| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&resolve));
    });
    let first = Promise::race(&Array::of2(&answered, &blocked));
    let event = JsFuture::from(first).await.map_err(|fault| Fault::of(&fault))?;
    let kind = Reflect::get(&event, &"type".into()).ok().and_then(|kind| kind.as_string());
    match kind.as_deref() {
        Some("blocked") => Err(Fault::Blocked),
        Some("success") => request.result().map_err(|fault| Fault::of(&fault)),
        _ => Err(request.error().ok().flatten().map_or(Fault::Forbidden, |fault| Fault::of(&fault))),
    }
}

fn make_stores(request: &IdbOpenDbRequest) {
    let Ok(db) = request.result().and_then(JsCast::dyn_into::<IdbDatabase>) else { return };
    for name in STORES {
        // A store that is there already stays as it is; one that cannot be made shows with the first transaction.
        let _ = db.create_object_store(name);
    }
}
