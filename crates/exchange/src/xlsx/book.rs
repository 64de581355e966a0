//! A workbook being written: sheets, cells, formats. Not here: what stands in them.

use super::units::Units;
use crate::fault::PaperFault;
use hodful_quantities::print::UnitSystem;
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook,
    Worksheet, XlsxError,
};

/// Colour of what may be changed: a dark blue that prints as dark grey.
const TYPED: Color = Color::RGB(0x001F_3A7A);

/// The widest a column is made, letters.
const WIDEST: f64 = 46.0;

impl From<XlsxError> for PaperFault {
    fn from(wrong: XlsxError) -> Self {
        Self::Workbook(wrong.to_string())
    }
}

/// A workbook.
pub(super) struct Book {
    book: Workbook,
    pub(super) units: Units,
}

impl Book {
    pub(super) fn new(units: UnitSystem) -> Self {
        let mut book = Workbook::new();
        // The day of writing stands in the foot as it is told; the file itself is the same for the
        // same figures.
        let properties = DocProperties::new();
        let properties = match ExcelDateTime::from_ymd(2000, 1, 1) {
            Ok(day) => properties.set_creation_datetime(&day),
            Err(_) => properties,
        };
        book.set_properties(&properties);
        Self {
            book,
            units: Units(units),
        }
    }

    /// A new sheet behind the others.
    pub(super) fn sheet(&mut self, name: &str) -> Result<Sheet<'_>, PaperFault> {
        let sheet = self.book.add_worksheet();
        sheet.set_name(name)?;
        Ok(Sheet {
            sheet,
            widths: Vec::new(),
        })
    }

    pub(super) fn bytes(mut self) -> Result<Vec<u8>, PaperFault> {
        Ok(self.book.save_to_buffer()?)
    }
}

/// A sheet being written.
pub(super) struct Sheet<'b> {
    sheet: &'b mut Worksheet,
    widths: Vec<f64>,
}

impl Sheet<'_> {
    /// The head of the columns, kept in sight and printed on every page.
    pub(super) fn head(&mut self, row: u32, heads: &[String]) -> Result<(), PaperFault> {
        let format = Format::new()
            .set_bold()
            .set_text_wrap()
            .set_align(FormatAlign::Bottom)
            .set_border_bottom(FormatBorder::Thin);
        for (column, head) in (0_u16..).zip(heads) {
            self.sheet
                .write_string_with_format(row, column, head, &format)?;
            let longest = head.split_whitespace().map(str::len).max().unwrap_or(0);
            self.wide(column, longest);
        }
        self.sheet.set_freeze_panes(row + 1, 1)?;
        self.sheet.set_repeat_rows(row, row)?;
        Ok(())
    }

    /// Words.
    pub(super) fn text(&mut self, row: u32, column: u16, text: &str) -> Result<(), PaperFault> {
        self.sheet.write_string(row, column, text)?;
        self.wide(column, text.chars().count());
        Ok(())
    }

    /// Words that stand out.
    pub(super) fn bold(&mut self, row: u32, column: u16, text: &str) -> Result<(), PaperFault> {
        let format = Format::new().set_bold();
        self.sheet
            .write_string_with_format(row, column, text, &format)?;
        Ok(())
    }

    /// Words over several lines in one column.
    pub(super) fn paragraph(
        &mut self,
        row: u32,
        column: u16,
        text: &str,
    ) -> Result<(), PaperFault> {
        let format = Format::new().set_text_wrap().set_align(FormatAlign::Top);
        self.sheet
            .write_string_with_format(row, column, text, &format)?;
        self.wide(column, text.chars().count());
        Ok(())
    }

    /// A number that the program worked out and no formula here does.
    pub(super) fn number(
        &mut self,
        row: u32,
        column: u16,
        value: f64,
        decimals: u8,
    ) -> Result<(), PaperFault> {
        let format = digits(decimals);
        self.sheet
            .write_number_with_format(row, column, value, &format)?;
        Ok(())
    }

    /// A number that was typed: changed here, what follows from it changes.
    pub(super) fn typed(
        &mut self,
        row: u32,
        column: u16,
        value: f64,
        decimals: u8,
    ) -> Result<(), PaperFault> {
        let format = digits(decimals).set_font_color(TYPED);
        self.sheet
            .write_number_with_format(row, column, value, &format)?;
        Ok(())
    }

    /// A share that was typed, in percent.
    pub(super) fn share(&mut self, row: u32, column: u16, value: f64) -> Result<(), PaperFault> {
        let format = Format::new().set_num_format("0.0##%").set_font_color(TYPED);
        self.sheet
            .write_number_with_format(row, column, value, &format)?;
        Ok(())
    }

    /// A formula with its result.
    pub(super) fn formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        value: f64,
        decimals: u8,
    ) -> Result<(), PaperFault> {
        let formula = Formula::new(formula).set_result(value.to_string());
        let format = digits(decimals);
        self.sheet
            .write_formula_with_format(row, column, formula, &format)?;
        Ok(())
    }

    /// A formula that sums up, with its result.
    pub(super) fn total(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        value: f64,
        decimals: u8,
    ) -> Result<(), PaperFault> {
        let formula = Formula::new(formula).set_result(value.to_string());
        let format = digits(decimals)
            .set_bold()
            .set_border_top(FormatBorder::Thin);
        self.sheet
            .write_formula_with_format(row, column, formula, &format)?;
        Ok(())
    }

    /// Makes a column wide enough for so many letters.
    fn wide(&mut self, column: u16, letters: usize) {
        #[allow(clippy::cast_precision_loss, reason = "letters of a cell")]
        let width = (letters as f64 + 2.0).min(WIDEST);
        let at = usize::from(column);
        if self.widths.len() <= at {
            self.widths.resize(at + 1, 9.0);
        }
        if let Some(widest) = self.widths.get_mut(at) {
            *widest = widest.max(width);
        }
    }

    /// Ends the sheet: widths, and how it prints.
    pub(super) fn end(self, foot: &str, us: bool) -> Result<(), PaperFault> {
        for (column, width) in (0_u16..).zip(self.widths) {
            self.sheet.set_column_width(column, width)?;
        }
        self.sheet.set_landscape();
        self.sheet.set_print_fit_to_pages(1, 0);
        // 1 is Letter, 9 is A4 (ECMA-376, part 1, 18.3.1.63, from memory).
        self.sheet.set_paper_size(if us { 1 } else { 9 });
        self.sheet.set_footer(format!("&L{foot}&R&P / &N"));
        Ok(())
    }
}

/// The format of a number with so many decimals.
fn digits(decimals: u8) -> Format {
    let format = match decimals {
        0 => "#,##0".to_owned(),
        some => format!("#,##0.{}", "0".repeat(usize::from(some))),
    };
    Format::new().set_num_format(format)
}
