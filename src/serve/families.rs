//! A program's functions in the order of their names, so that it packs small.
//!
//! A generic function is compiled once for each of its types, and the copies are nearly the same bytes; gzip finds what
//! repeats only within 32 KiB (RFC 1951, 2). `wasm-bindgen` lays functions out by their size, which strews the copies
//! over some megabytes. Side by side they weigh next to nothing: measured on this page, a tenth of the whole.

use std::convert::Infallible;
use wasm_encoder::reencode::{Error, Reencode, utils};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{
    BinaryReaderError, CodeSectionReader, CustomSectionReader, FunctionSectionReader, KnownCustom, Name,
    Parser, Payload,
};

/// Below so many bytes functions are alike across families. (Of 30 to 140 this one packed smallest.)
const SHORT: usize = 80;

/// How rustc ends the name of one copy: a hash of its types.
const HASH: usize = "17h0123456789abcdefE".len();

/// The program with its functions in the order of their names, and without the names.
///
/// # Errors
/// If it is no WebAssembly.
pub fn side_by_side(wasm: &[u8]) -> Result<Vec<u8>, Error> {
    let found = Found::of(wasm)?;
    let mut module = Module::new();
    Laid::new(&found).parse_core_module(&mut module, Parser::new(0), wasm)?;
    Ok(module.finish())
}

/// What is known of a program's functions before they are laid out.
struct Found<'a> {
    imported: u32,
    bodies: Vec<&'a [u8]>,
    names: Vec<&'a str>,
}

impl<'a> Found<'a> {
    fn of(wasm: &'a [u8]) -> Result<Self, BinaryReaderError> {
        let mut found = Self { imported: 0, bodies: Vec::new(), names: Vec::new() };
        for payload in Parser::new(0).parse_all(wasm) {
            match payload? {
                Payload::ImportSection(imports) => {
                    for import in imports.into_imports() {
                        found.imported += u32::from(matches!(import?.ty, wasmparser::TypeRef::Func(_)));
                    }
                }
                Payload::CodeSectionEntry(body) => found.bodies.push(&wasm[body.range()]),
                Payload::CustomSection(section) => {
                    if let KnownCustom::Name(names) = section.as_known() {
                        found.name(names)?;
                    }
                }
                _ => {}
            }
        }
        found.names.resize(found.bodies.len(), "");
        Ok(found)
    }

    fn name(&mut self, sections: wasmparser::NameSectionReader<'a>) -> Result<(), BinaryReaderError> {
        self.names.resize(self.bodies.len(), "");
        for section in sections {
            let Name::Function(names) = section? else { continue };
            for naming in names {
                let naming = naming?;
                let own = naming.index.checked_sub(self.imported).map(|n| n as usize);
                if let Some(name) = own.and_then(|n| self.names.get_mut(n)) {
                    *name = naming.name;
                }
            }
        }
        Ok(())
    }

    /// The functions in their new order: short ones by what they do, long ones by family and there by length.
    fn order(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.bodies.len()).collect();
        order.sort_by_key(|&n| match self.bodies[n] {
            short if short.len() < SHORT => ("", 0, short),
            long => (family(self.names[n]), long.len(), long),
        });
        order
    }
}

/// A function's name without the hash of its types.
fn family(name: &str) -> &str {
    let Some(start) = name.len().checked_sub(HASH) else { return name };
    let hashed = name.is_char_boundary(start) && name[start..].starts_with("17h") && name.ends_with('E');
    if hashed { &name[..start] } else { name }
}

/// Writes a program anew with its functions in another order.
struct Laid<'a> {
    found: &'a Found<'a>,
    order: Vec<usize>,
    /// Where each of the program's own functions has gone.
    places: Vec<u32>,
}

impl<'a> Laid<'a> {
    fn new(found: &'a Found<'a>) -> Self {
        let order = found.order();
        let mut places = vec![0; order.len()];
        for (place, &n) in (found.imported..).zip(&order) {
            places[n] = place;
        }
        Self { found, order, places }
    }
}

impl Reencode for Laid<'_> {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error> {
        let own = function.checked_sub(self.found.imported).map(|n| n as usize);
        Ok(own.and_then(|n| self.places.get(n)).copied().unwrap_or(function))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error> {
        let types = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for n in self.order.clone() {
            functions.function(self.type_index(types[n])?);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error> {
        let bodies = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for n in self.order.clone() {
            self.parse_function_body(code, bodies[n].clone())?;
        }
        Ok(())
    }

    fn parse_custom_section(
        &mut self,
        module: &mut Module,
        section: CustomSectionReader<'_>,
    ) -> Result<(), Error> {
        match section.as_known() {
            KnownCustom::Name(_) => Ok(()),
            _ => utils::parse_custom_section(self, module, section),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        ConstExpr, ElementSection, Elements, EntityType, ExportKind, ExportSection, Function, ImportSection,
        Instruction, NameMap, NameSection, RefType, TableSection, TableType, TypeSection, ValType,
    };

    /// A program with one import and three functions of its own: `seven` gives a number, `twice` calls it, `idle` calls
    /// the import. They stand at these places, long enough to go by their names, and are exported and in a table.
    fn program(idle: u32, seven: u32, twice: u32) -> Module {
        let mut module = Module::new();
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I32]);
        types.ty().function([], []);
        module.section(&types);
        let mut imports = ImportSection::new();
        imports.import("host", "idle", EntityType::Function(1));
        module.section(&imports);
        let bodies = [
            (idle, 1, vec![Instruction::Call(0)]),
            (seven, 0, vec![Instruction::I32Const(7)]),
            (twice, 0, vec![Instruction::Call(seven), Instruction::Call(seven), Instruction::I32Add]),
        ];
        let at = |place: u32| bodies.iter().find(|body| body.0 == place).unwrap();
        let mut functions = FunctionSection::new();
        (1..=3).for_each(|place| {
            functions.function(at(place).1);
        });
        module.section(&functions);
        let mut tables = TableSection::new();
        tables.table(TableType {
            element_type: RefType::FUNCREF,
            minimum: 2,
            maximum: None,
            table64: false,
            shared: false,
        });
        module.section(&tables);
        let mut exports = ExportSection::new();
        exports.export("twice", ExportKind::Func, twice);
        module.section(&exports);
        let mut elements = ElementSection::new();
        elements.active(None, &ConstExpr::i32_const(0), Elements::Functions([0, seven].as_slice().into()));
        module.section(&elements);
        let mut code = CodeSection::new();
        for place in 1..=3 {
            let mut body = Function::new([]);
            for instruction in vec![Instruction::Nop; SHORT].iter().chain(&at(place).2) {
                body.instruction(instruction);
            }
            body.instruction(&Instruction::End);
            code.function(&body);
        }
        module.section(&code);
        module
    }

    #[test]
    fn functions_stand_by_name_and_all_that_points_at_them_follows() {
        let mut named = program(1, 2, 3);
        let mut names = NameMap::new();
        for (n, name) in [(0, "host"), (1, "c"), (2, "b17h0123456789abcdefE"), (3, "a17h0123456789abcdefE")] {
            names.append(n, name);
        }
        let mut section = NameSection::new();
        section.functions(&names);
        named.section(&section);
        assert_eq!(side_by_side(&named.finish()).unwrap(), program(3, 2, 1).finish());
    }

    #[test]
    fn short_functions_stand_by_what_they_do_and_long_ones_by_family_and_length() {
        let long = |first: u8, len: usize| -> Vec<u8> { [vec![first], vec![0; len]].concat() };
        let bodies = [long(2, 400), long(1, 300), long(3, 200), long(3, 2), long(2, 3)];
        let names = vec!["a", "b", "a", "a", "b"];
        let found = Found { imported: 0, bodies: bodies.iter().map(Vec::as_slice).collect(), names };
        assert_eq!(found.order(), [4, 3, 2, 0, 1]);
    }

    #[test]
    fn what_is_no_program_is_refused() {
        assert!(side_by_side(b"no WebAssembly").is_err());
        let whole = program(1, 2, 3).finish();
        assert!(side_by_side(&whole[..whole.len() - 3]).is_err());
    }

    #[test]
    fn a_family_is_a_name_without_its_hash() {
        assert_eq!(family("_ZN3one3two17h0123456789abcdefE"), "_ZN3one3two");
        assert_eq!(family("_RNvCs1_3one"), "_RNvCs1_3one");
        assert_eq!(family("ü17h0123456789abcdefE"), "ü");
        assert_eq!(family(""), "");
    }
}
