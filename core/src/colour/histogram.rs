//! Histograms of 8-bit codes, and their medians.

/// Counts of the codes of three channels.
pub(super) struct Histogram {
    bins: [[u32; 256]; 3],
    pub count: u32,
}

impl Default for Histogram {
    fn default() -> Self {
        Self { bins: [[0; 256]; 3], count: 0 }
    }
}

impl Histogram {
    pub fn add(&mut self, rgb: [u8; 3]) {
        for (bins, code) in self.bins.iter_mut().zip(rgb) {
            bins[usize::from(code)] += 1;
        }
        self.count += 1;
    }

    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.bins.iter_mut().flatten().zip(other.bins.iter().flatten()) {
            *mine += theirs;
        }
        self.count += other.count;
    }

    /// Median of a channel, interpolated within its bin.
    pub fn median(&self, channel: usize) -> f64 {
        let half = f64::from(self.count) / 2.0;
        let mut below = 0.0;
        for (code, &n) in self.bins[channel].iter().enumerate() {
            let n = f64::from(n);
            if n > 0.0 && below + n >= half {
                return (code as f64 - 0.5 + (half - below) / n).clamp(0.0, 255.0);
            }
            below += n;
        }
        0.0
    }

    /// Median absolute deviation from `centre`, codes.
    pub fn median_deviation(&self, channel: usize, centre: f64) -> f64 {
        let mut distances: Vec<(f64, u32)> = self.bins[channel]
            .iter()
            .enumerate()
            .filter(|&(_, &n)| n > 0)
            .map(|(code, &n)| ((code as f64 - centre).abs(), n))
            .collect();
        distances.sort_by(|one, other| one.0.total_cmp(&other.0));
        let half = self.count.div_ceil(2);
        let mut seen = 0;
        for (distance, n) in distances {
            seen += n;
            if seen >= half {
                return distance;
            }
        }
        0.0
    }
}
