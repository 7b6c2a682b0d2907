//! The form that every part of a recipe's file has, and of other files with a published schema.

/// Plain data with one file format: its derives and what is refused.
#[macro_export]
macro_rules! data {
    ($(#[$meta:meta])* pub $kind:ident $name:ident $body:tt) => {
        $(#[$meta])*
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
        #[serde(rename_all = "snake_case", deny_unknown_fields)]
        pub $kind $name $body
    };
}

pub use data;
