//! Where a workspace begins.

use std::path::Path;

/// The file that marks the root of a workspace and holds the house's standards.
pub const SETTINGS: &str = "washline.toml";

/// The nearest folder, from `folder` upward, that holds a `washline.toml`.
#[must_use]
pub fn settings_folder(folder: &Path) -> Option<&Path> {
    folder.ancestors().find(|folder| folder.join(SETTINGS).is_file())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_upward_is_the_root() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        std::fs::create_dir_all(root.join("bar/list/spring")).unwrap();
        std::fs::write(root.join("bar/washline.toml"), "").unwrap();
        std::fs::write(root.join("bar/list/washline.toml"), "").unwrap();
        let of = |path: &str| settings_folder(&root.join(path)).map(Path::to_path_buf);
        assert_eq!(of("bar/list/spring"), Some(root.join("bar/list")));
        assert_eq!(of("bar"), Some(root.join("bar")));
        assert_eq!(of(""), None);
    }
}
