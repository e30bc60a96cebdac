//! The details of a shop in its folder: changed, saved, and its logo taken in.

use std::path::Path;
use std::sync::Arc;

use super::logo::{logo_png, read_logo};
use super::photo_fault::PhotoFault;
use super::reading::{bytes_of, name_of, parse, text_of};
use super::saving::{FileStamp, RealDisk, save};
use super::shop::{SHOP_FILE, Shop};
use super::shop_details::{ShopDetails, ShopFile};
use super::store_error::{Cause, StoreError};
use super::writing::pretty;
use crate::book::Logo;

impl Shop {
    /// From now on it says this of itself. [`Shop::save_details`] saves it.
    pub fn describe(&mut self, details: ShopDetails) {
        if let Some(money) = &details.money {
            money.put_into(&mut Arc::make_mut(&mut self.style).prices);
        }
        self.details = details;
    }

    /// `shop.ron` as this shop knows it.
    pub fn known_stamp(&self) -> Option<FileStamp> {
        self.on_disk
    }

    /// Its details were saved, and `shop.ron` is now as the stamp says.
    pub fn details_saved(&mut self, stamp: FileStamp) {
        self.on_disk = Some(stamp);
    }

    /// Saves its details in `shop.ron`; which style it has stays as it stands there. A file that somebody else has changed
    /// since it was as `known`, or that cannot be read, is not written over.
    pub fn save_details(&self, known: Option<FileStamp>) -> Result<FileStamp, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(SHOP_FILE, Cause::NoPlace))?;
        let file = folder.join(SHOP_FILE);
        let stands = match bytes_of(&file) {
            Ok(bytes) => parse::<ShopFile>(text_of(&bytes, &name_of(&file))?, &name_of(&file))?.style,
            Err(StoreError { cause: Cause::NotThere, .. }) => None,
            Err(refusal) => return Err(refusal),
        };
        let text = pretty(&ShopFile::of(&self.details, stands), 1);
        save(&RealDisk, &file, text.as_bytes(), known.as_ref())
    }

    /// Takes the picture in a file as the shop's logo: a copy is kept in the shop's folder, beside those before it, so that
    /// each can be taken back. Returns the name of the copy, and the logo.
    pub fn add_logo(&self, path: &Path) -> Result<(String, Logo), StoreError> {
        /// Beyond this many something else is wrong.
        const MOST: u32 = 1000;
        let logo = read_logo(path)?;
        let folder = self.folder().ok_or_else(|| StoreError::new(&name_of(path), Cause::NoPlace))?;
        let nth = |n: u32| if n == 1 { "logo.png".to_owned() } else { format!("logo-{n}.png") };
        let name = (1..=MOST).map(nth).find(|name| !folder.join(name).exists());
        let name = name.ok_or_else(|| StoreError::new(&name_of(folder), Cause::AlreadyThere))?;
        let png = logo_png(&logo).ok_or_else(|| StoreError::new(&name_of(path), Cause::Logo(PhotoFault::Damaged)))?;
        save(&RealDisk, &folder.join(&name), &png, None)?;
        Ok((name, logo))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{DateStyle, HourStyle, Letterhead, Written};
    use crate::piece::{Tax, TaxHow};
    use crate::store::ShopMoney;
    use crate::store::photo::most_bytes;
    use crate::units::Currency;

    fn every_detail() -> ShopDetails {
        let line = |words: &str| words.to_owned();
        let letterhead = Letterhead {
            name: line("Quillfern Flowers"),
            address: vec![line("12 Quill Lane"), line("Fernhaven")],
            phone: line("555-0142"),
            email: line("hello@quillfern.example"),
            web: line("quillfern.example"),
            tax_number: line("12-3456789"),
            hours: vec![line("Tue to Sat, 9 am to 5 pm")],
            logo: None,
            on_picture: true,
        };
        let tax = Tax { name: line("VAT"), percent: 20.0, how: TaxHow::Included };
        let money = Some(ShopMoney { currency: Currency::behind("\u{20ac}"), tax: Some(tax) });
        let written = Written { date: DateStyle::Dots, hour: HourStyle::Hours24 };
        ShopDetails { letterhead, logo_file: None, money, written }
    }

    #[test]
    fn every_detail_stands_in_the_file_and_goes_before_the_style() {
        let folder = tempfile::tempdir().unwrap();
        let mut shop = Shop::begin(folder.path(), "Before").unwrap();
        assert!(std::fs::read_to_string(folder.path().join("shop.ron")).unwrap().contains("version: 1"));
        let style = shop.style().name.clone();
        shop.save_own_style().unwrap();
        shop.describe(every_detail());
        let stamp = shop.save_details(shop.known_stamp()).unwrap();
        shop.details_saved(stamp);
        let again = Shop::open(folder.path()).unwrap();
        assert_eq!((again.details(), again.known_stamp(), again.warnings()), (&every_detail(), Some(stamp), &[][..]));
        let prices = &again.style().prices;
        assert_eq!((&prices.currency, prices.tax.as_ref().unwrap().percent), (&Currency::behind("\u{20ac}"), 20.0));
        assert!(again.styles().iter().all(|s| s.prices.currency.sign == "\u{20ac}"));
        assert_eq!(again.style().name, style);
        let none =
            ShopDetails { money: Some(ShopMoney { tax: None, ..every_detail().money.unwrap() }), ..every_detail() };
        shop.describe(none.clone());
        shop.save_details(shop.known_stamp()).unwrap();
        assert_eq!(*Shop::open(folder.path()).unwrap().details(), none);
    }

    #[test]
    fn a_file_that_was_changed_elsewhere_or_cannot_be_read_is_not_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let mut shop = Shop::begin(folder.path(), "Q").unwrap();
        shop.describe(every_detail());
        let file = folder.path().join("shop.ron");
        for (other, cause) in [("(version: 1, name: \"R\")", Cause::Changed), ("", Cause::Empty)] {
            std::fs::write(&file, other).unwrap();
            assert_eq!(shop.save_details(shop.known_stamp()).unwrap_err().cause, cause);
            assert_eq!(std::fs::read_to_string(&file).unwrap(), other);
        }
        assert_eq!(Shop::built_in().save_details(None).unwrap_err().cause, Cause::NoPlace);
    }

    #[test]
    fn a_logo_that_is_gone_or_lies_elsewhere_is_left_out_and_said() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        drop(shop);
        let text = "(version: 2, name: \"Q\", logo: \"../../elsewhere.png\")";
        std::fs::write(folder.path().join("shop.ron"), text).unwrap();
        let shop = Shop::open(folder.path()).unwrap();
        assert!(shop.letterhead().logo.is_none() && shop.warnings()[0].ends_with("Papers go without the logo."));
    }

    fn png() -> Vec<u8> {
        let picture = image::RgbaImage::from_pixel(40, 40, image::Rgba([1, 2, 3, 255]));
        let mut bytes = std::io::Cursor::new(Vec::new());
        picture.write_to(&mut bytes, image::ImageFormat::Png).unwrap();
        bytes.into_inner()
    }

    #[test]
    fn what_is_no_logo_is_refused_with_a_reason_and_nothing_is_kept() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let file = folder.path().join("wrong.png");
        let whole = png();
        let huge = vec![0_u8; usize::try_from(most_bytes()).unwrap() + 1];
        for (bytes, fault) in [
            (&b""[..], PhotoFault::Empty),
            (b"GIF89a", PhotoFault::NotAPhoto),
            (&whole[..whole.len() / 2], PhotoFault::CutShort),
            (&huge, PhotoFault::TooManyBytes),
        ] {
            std::fs::write(&file, bytes).unwrap();
            assert_eq!(shop.add_logo(&file).unwrap_err().cause, Cause::Logo(fault));
        }
        assert!(!folder.path().join("logo.png").exists());
        std::fs::write(&file, &whole).unwrap();
        let (first, second) = (shop.add_logo(&file).unwrap(), shop.add_logo(&file).unwrap());
        assert_eq!((&*first.0, &*second.0), ("logo.png", "logo-2.png"));
        assert_eq!(read_logo(&folder.path().join("logo-2.png")).unwrap(), first.1);
    }
}
