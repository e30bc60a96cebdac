//! The house style of a shop in its folder: chosen, saved, shared as a file.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::reading::{bytes_of, name_of, text_of};
use super::saving::FileStamp;
use super::shop::{Shop, file_name_of, make_folder};
use super::store_error::{Cause, StoreError};
use super::{built_in_style, built_in_styles, save_style, style_from_text};
use crate::piece::HouseStyle;

impl Shop {
    /// The styles to choose from: those that come with the program and those in `styles/`, each under its name; the
    /// shop's own goes before a built-in one of the same name. A file that cannot be read is left out.
    pub fn styles(&self) -> Vec<HouseStyle> {
        super::thread_guard::touch_disk();
        let mut styles: Vec<HouseStyle> = built_in_styles().into_iter().map(|s| self.in_own_money(s)).collect();
        let files = self.folder().and_then(|f| std::fs::read_dir(f.join("styles")).ok());
        let mut paths: Vec<PathBuf> = files.into_iter().flatten().flatten().map(|e| e.path()).collect();
        paths.retain(|p| p.extension().is_some_and(|e| e == "ron"));
        paths.sort();
        for own in paths.iter().filter_map(|path| self.style_in(path).ok()) {
            match styles.iter_mut().find(|s| s.name == own.name) {
                Some(same) => *same = own,
                None => styles.push(own),
            }
        }
        styles
    }

    /// The file in which the style of this name is saved, by [`super::save_style`]; its folder is made if need be.
    pub fn style_file(&self, name: &str) -> Result<PathBuf, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(name, Cause::NoPlace))?.join("styles");
        make_folder(&folder)?;
        Ok(folder.join(format!("{}.ron", file_name_of(name))))
    }

    /// The style in a file from anywhere; what it leaves out is as in the built-in one.
    pub fn style_in(&self, path: &Path) -> Result<HouseStyle, StoreError> {
        let (name, bytes) = (name_of(path), bytes_of(path)?);
        let style = style_from_text(text_of(&bytes, &name)?, &name, &built_in_style(), self.stock())?;
        Ok(self.in_own_money(style))
    }

    /// A style with the money of the shop, where the shop says it.
    fn in_own_money(&self, mut style: HouseStyle) -> HouseStyle {
        if let Some(money) = &self.details.money {
            money.put_into(&mut style.prices);
        }
        style
    }

    /// From now on the house makes things in this style. [`Shop::save_own_style`] saves it.
    pub fn restyle(&mut self, style: Arc<HouseStyle>) {
        self.style = style;
    }

    /// Saves the house style in its file in `styles/`, and in `shop.ron` which one it is. A file that somebody else has
    /// changed since, or that cannot be read, is not written over.
    pub fn save_own_style(&mut self) -> Result<(), StoreError> {
        let path = self.style_file(&self.style.name)?;
        let stamp = match &self.style_on_disk {
            Some((saved, stamp)) if *saved == path => Some(*stamp),
            _ if path.exists() => {
                self.style_in(&path)?;
                FileStamp::of_file(&path)?
            }
            _ => None,
        };
        let stamp = save_style(&path, &self.style, &self.stock, stamp.as_ref())?;
        self.style_on_disk = Some((path, stamp));
        self.name_style()
    }

    /// The file that the style was read from or saved in, as it was then.
    pub fn style_on_disk(&self) -> Option<&(PathBuf, FileStamp)> {
        self.style_on_disk.as_ref()
    }

    /// The style was saved meanwhile, by a copy of this shop.
    pub fn style_was_saved(&mut self, on_disk: Option<(PathBuf, FileStamp)>) {
        self.style_on_disk = on_disk;
    }

    /// Saves a style among those to choose from, under its name or, where that is taken, with a number behind it; returns
    /// it as it was saved.
    pub fn add_style(&self, style: &HouseStyle) -> Result<HouseStyle, StoreError> {
        /// Beyond this many of one name something else is wrong.
        const MOST_OF_A_NAME: u32 = 1000;
        let taken: Vec<String> = self.styles().iter().map(|s| file_name_of(&s.name)).collect();
        let nth = |n: u32| if n == 1 { style.name.clone() } else { format!("{} {n}", style.name) };
        for name in (1..=MOST_OF_A_NAME).map(nth).filter(|name| !taken.contains(&file_name_of(name))) {
            let path = self.style_file(&name)?;
            if !path.exists() {
                let style = HouseStyle { name, ..style.clone() };
                return save_style(&path, &style, &self.stock, None).map(|_| style);
            }
        }
        Err(StoreError::new(&style.name, Cause::AlreadyThere))
    }

    /// Writes a style into a file anywhere, over what is there: for another shop. A name without an ending gets one.
    pub fn share_style(&self, path: &Path, style: &HouseStyle) -> Result<PathBuf, StoreError> {
        let path = if path.extension().is_some() { path.to_owned() } else { path.with_extension("ron") };
        let stamp = FileStamp::of_file(&path)?;
        save_style(&path, style, &self.stock, stamp.as_ref()).map(|_| path)
    }
}
