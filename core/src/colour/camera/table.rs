use super::CameraErrors;
pub(super) const DAYLIGHT_WITH_GREY: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
pub(super) const DAYLIGHT: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
pub(super) const BULB_WITH_GREY: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
pub(super) const BULB: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
pub(super) const GOOD_LAMP_WITH_GREY: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
pub(super) const GOOD_LAMP: CameraErrors = CameraErrors { modes: &[], rest: [0.0; 3] };
