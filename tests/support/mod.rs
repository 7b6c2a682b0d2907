//! What the tests share: the page built and served once, a browser to open it in, and a proxy that writes down who
//! is called.
//!
//! ```ignore
//! let browser = Browser::start();
//! browser.open(&page_url());
//! browser.wait_for("return document.querySelector('main') !== null");
//! assert_eq!(browser.violations(), Vec::<String>::new());
//! ```

#![allow(dead_code, reason = "every test binary uses a part of it")]

pub mod browser;
pub mod driver;
pub mod golden;
pub mod page;
pub mod pairs;
pub mod proxy;
pub mod site;
pub mod worker;
