//! Sodium percarbonate, 2Na2CO3·3H2O2: content of a powder, what it releases, its solubility
//! and its loss. pH is in [`equilibrium`](super::equilibrium), titration in
//! [`titration`](super::titration).

mod decomposition;
mod loss;
mod powder;
mod solubility;

pub use decomposition::{DecompositionCause, HOTTEST, STABILISERS, Stabiliser};
pub use loss::{
    LOSS_WITH_IRON, LOSS_WITH_METALS_AND_EDTA, PeroxideConditions, activation, left_in_liquor,
    relative_loss,
};
pub use powder::{
    ACTIVE_OXYGEN, POWDER, PURE_ACTIVE_OXYGEN, PURE_PEROXIDE, PercarbonatePowder, Released,
};
pub use solubility::{check_dissolves, soda_lost_to_hardness, solubility};
