//! Colour as a camera with a white card saw it.
