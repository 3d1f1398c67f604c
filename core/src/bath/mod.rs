//! The bath: strength, dilution, charge, plan, heat.
