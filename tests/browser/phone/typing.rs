//! A field that a person is typing in: its element, focus, text and selection.

use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::elements::Element;
use serde_json::{Value, json};

use super::Phone;
use crate::error::{TestFailure, TestResult, ensure};

/// The state of a field when the person last typed in it.
pub struct TypedField {
    name: String,
    element: Element,
    text: String,
    /// Start and end of the selection, UTF-16 units.
    selection: [usize; 2],
}

impl Phone {
    /// Types `text` into the field called `name` and selects its second character.
    pub async fn begin_typing(&self, name: &str, text: &str) -> TestResult<TypedField> {
        self.fill(name, text).await?;
        let element = self.find("field", name).await?;
        let field =
            TypedField { name: name.to_owned(), element, text: text.to_owned(), selection: [1, 2] };
        self.execute_on(&field.element, SELECT_SECOND).await?;
        self.check_typing(&field, "the selection").await?;
        Ok(field)
    }

    /// # Errors
    /// After `change` the focus, the text or the selection is another, or the field's element
    /// has been replaced.
    pub async fn check_typing(&self, field: &TypedField, change: &str) -> TestResult {
        let TypedField { name, text, selection, .. } = field;
        let state = self.execute_on(&field.element, STATE).await.map_err(|error| {
            TestFailure::new(format!("“{name}” was replaced by {change}: {error}"))
        })?;
        let expected = json!({ "focused": true, "text": text, "selection": selection });
        ensure(state == expected, || {
            format!("“{name}” was changed by {change}: {state}, expected {expected}")
        })
    }

    /// Presses a key in place of the selection and checks that the caret stays behind it.
    pub async fn type_key(&self, field: &mut TypedField, key: char) -> TestResult {
        self.press_key(key).await?;
        let [start, end] = field.selection;
        let mut text: Vec<char> = field.text.chars().collect();
        text.splice(start..end, [key]);
        field.text = text.into_iter().collect();
        field.selection = [start + 1, start + 1];
        self.check_typing(field, "a key").await
    }

    /// Presses and releases a key where the focus is.
    pub async fn press_key(&self, key: char) -> TestResult {
        let press = KeyActions::new("keyboard".into())
            .then(KeyAction::Down { value: key })
            .then(KeyAction::Up { value: key });
        self.client()?.perform_actions(press).await?;
        Ok(())
    }

    /// Presses the control called `name` by script, which leaves the focus where it is.
    pub async fn press_without_focus(&self, name: &str) -> TestResult {
        let control = self.find("press", name).await?;
        // The click of a label would focus its control.
        self.execute_on(&control, "(arguments[0].control ?? arguments[0]).click()").await?;
        Ok(())
    }

    async fn execute_on(&self, element: &Element, script: &str) -> TestResult<Value> {
        let element = serde_json::to_value(element)
            .map_err(|error| TestFailure::new(format!("an element: {error}")))?;
        Ok(self.client()?.execute(script, vec![element]).await?)
    }
}

const SELECT_SECOND: &str = "arguments[0].focus(); arguments[0].setSelectionRange(1, 2)";
const STATE: &str = "const [field] = arguments; \
    return { focused: document.activeElement === field, text: field.value, \
        selection: [field.selectionStart, field.selectionEnd] }";
