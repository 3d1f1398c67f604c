//! Build tools of the app: `cargo run -p bleachfield-xtask -- COMMAND`.

#![allow(clippy::print_stdout)] // the address that is served

use std::path::PathBuf;

use anyhow::Result;
use bleachfield_xtask::{lighthouse, post_build, serve, weigh};
use clap::{Parser, Subcommand};

#[derive(Parser)]
#[command(about)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Trunk's post-build hook: lazy pieces, links, policy, offline list, compression
    PostBuild {
        /// Folder that holds what Trunk has built
        #[arg(long, env = "TRUNK_STAGING_DIR")]
        staging: PathBuf,
        #[arg(long, env = "TRUNK_PROFILE")]
        profile: post_build::Profile,
    },
    /// Serves a built app on the loopback interface; the first line printed is its address
    Serve {
        dist: PathBuf,
        /// 0 for any free port
        #[arg(long, default_value_t = 8470)]
        port: u16,
        /// Serve it in a folder, such as /some/folder/, as a plain static host does: only files,
        /// and 404.html for every other address
        #[arg(long)]
        base: Option<String>,
    },
    /// Prints download sizes; fails above the limits
    Weigh { dist: PathBuf },
    /// Prints Lighthouse scores; fails below the limit
    Lighthouse { dist: PathBuf },
    /// Draws the PNG icons from the SVG in a folder
    #[cfg(feature = "icons")]
    Icons {
        folder: PathBuf,
        /// Write nothing; fail if an icon differs from the drawing
        #[arg(long)]
        check: bool,
    },
}

fn main() -> Result<()> {
    match Arguments::parse().command {
        Command::PostBuild { staging, profile } => post_build::run(&staging, profile),
        Command::Serve { dist, port, base } => {
            let (server, address) = serve::Server::bind(&dist, port, base.as_deref())?;
            println!("{address}");
            Ok(server.run()?)
        }
        Command::Weigh { dist } => weigh::run(&dist),
        Command::Lighthouse { dist } => lighthouse::run(&dist),
        #[cfg(feature = "icons")]
        Command::Icons { folder, check } => bleachfield_xtask::icons::run(&folder, check),
    }
}
