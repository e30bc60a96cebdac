//! What stands at the top of a client's paper: who the shop is and how it is reached. Knows no paper and no file.

use std::fmt;
use std::sync::Arc;

/// What a paper calls a shop that has no name yet.
const YOUR_SHOP: &str = "Your shop";

/// The shop as its clients read it. Everything may be empty; a paper leaves out what is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Letterhead {
    /// Its name.
    pub name: String,
    /// Where it is, a line each.
    pub address: Vec<String>,
    /// Telephone.
    pub phone: String,
    /// E-mail.
    pub email: String,
    /// Web page.
    pub web: String,
    /// The number under which it is known for tax, as local rules ask for it on a bill.
    pub tax_number: String,
    /// When it is open, a line each.
    pub hours: Vec<String>,
    /// Its sign.
    pub logo: Option<Arc<Logo>>,
    /// Whether its name stands, small, below a picture that is handed out.
    pub on_picture: bool,
}

impl Letterhead {
    /// A shop of which only the name is known.
    pub fn named(name: &str) -> Self {
        Self { name: name.to_owned(), ..Self::default() }
    }

    /// Its name as it is printed: never empty.
    pub fn or_your_shop(&self) -> &str {
        match self.name.trim() {
            "" => YOUR_SHOP,
            name => name,
        }
    }

    /// How it is reached: telephone, e-mail, web page, as far as they are known.
    pub fn contacts(&self) -> Vec<&str> {
        [&self.phone, &self.email, &self.web].into_iter().map(|c| c.trim()).filter(|c| !c.is_empty()).collect()
    }

    /// The address on one line.
    pub fn address_line(&self) -> String {
        let lines: Vec<&str> = self.address.iter().map(|l| l.trim()).filter(|l| !l.is_empty()).collect();
        lines.join(", ")
    }

    /// What a client would look for and not find, most needed first, as sentences.
    pub fn missing(&self) -> Vec<&'static str> {
        let all = [
            (self.name.trim().is_empty(), "No name yet: papers say \u{201c}Your shop\u{201d}."),
            (self.phone.trim().is_empty(), "No phone yet: clients cannot ring."),
            (self.address_line().is_empty(), "No address yet: clients cannot find you."),
        ];
        all.into_iter().filter(|(is_missing, _)| *is_missing).map(|(_, sentence)| sentence).collect()
    }
}

/// A picture of the shop's sign, upright.
#[derive(Clone, PartialEq, Eq)]
pub struct Logo {
    width_px: u32,
    height_px: u32,
    rgba: Vec<u8>,
}

impl Logo {
    /// A picture of four bytes a pixel, row by row: red, green, blue, and how solid it is; colours are not multiplied by it.
    /// None where the bytes do not fill it or where it has no pixel.
    pub fn new(width_px: u32, height_px: u32, rgba: Vec<u8>) -> Option<Self> {
        let n_bytes = u64::from(width_px) * u64::from(height_px) * 4;
        (n_bytes > 0 && rgba.len() as u64 == n_bytes).then_some(Self { width_px, height_px, rgba })
    }

    /// Columns.
    pub fn width_px(&self) -> u32 {
        self.width_px
    }
    /// Rows.
    pub fn height_px(&self) -> u32 {
        self.height_px
    }
    /// Its pixels, as [`Logo::new`] takes them.
    pub fn rgba(&self) -> &[u8] {
        &self.rgba
    }

    /// Its size where it may be this wide and high, in any unit: as large as fits, in its own proportion.
    pub fn fitted(&self, wide: f64, high: f64) -> (f64, f64) {
        let (width, height) = (f64::from(self.width_px), f64::from(self.height_px));
        let scale = (wide / width).min(high / height);
        (width * scale, height * scale)
    }
}

/// Its size; thousands of bytes say nothing.
impl fmt::Debug for Logo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Logo({} x {})", self.width_px, self.height_px)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shop_without_a_name_is_your_shop_and_told_what_is_missing() {
        let none = Letterhead { name: "  ".to_owned(), address: vec![" ".to_owned()], ..Letterhead::default() };
        assert_eq!((none.or_your_shop(), none.missing().len(), none.contacts().len()), ("Your shop", 3, 0));
        let some = Letterhead { phone: "555-0100".to_owned(), ..Letterhead::named(" Quillfern ") };
        assert_eq!((some.or_your_shop(), some.contacts()), ("Quillfern", vec!["555-0100"]));
        assert_eq!(some.missing(), ["No address yet: clients cannot find you."]);
    }

    #[test]
    fn a_logo_keeps_its_proportion_and_is_never_half_filled() {
        assert!(Logo::new(2, 2, vec![0; 15]).is_none() && Logo::new(0, 2, Vec::new()).is_none());
        let wide = Logo::new(4, 1, vec![0; 16]).unwrap();
        assert_eq!((wide.fitted(40.0, 18.0), wide.fitted(400.0, 18.0)), ((40.0, 10.0), (72.0, 18.0)));
    }
}
