//! Further tabs of the same browser: they share the storage of the first.

use fantoccini::wd::WindowHandle;

use super::Phone;
use crate::error::TestResult;

impl Phone {
    /// Opens a new tab at an address of the app and switches to it. Returns the tab left.
    pub async fn open_in_new_tab(&self, path: &str) -> TestResult<WindowHandle> {
        let client = self.client()?;
        let before = client.window().await?;
        let opened = client.new_window(true).await?;
        client.switch_to_window(opened.handle).await?;
        self.open(path).await?;
        Ok(before)
    }

    /// Closes the open tab and switches to `tab`, which gets the browser's focus.
    pub async fn close_tab_and_return_to(&self, tab: WindowHandle) -> TestResult {
        let client = self.client()?;
        client.close_window().await?;
        client.switch_to_window(tab).await?;
        Ok(())
    }
}
