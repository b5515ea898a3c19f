//! `desk`: the page for the lesson, served to this machine alone.
//!
//! One thread listens (`serve`), lets in what may come in (`guard`) and finds who answers it (`routes`). The lesson
//! (`lesson`) is one for all tabs; `actions` change it, `state` tells it. What takes long runs in threads of its own
//! (`work`); questions reach them through lanes that keep the newest of each tab (`lanes`) and are answered in `answers`.
//! Files are read and written in one folder (`folder`, `seats`, `save`).

mod actions;
mod answers;
mod folder;
mod guard;
mod lanes;
mod lesson;
mod reply;
mod routes;
mod save;
mod seats;
mod serve;
mod state;
mod told;
mod work;

use std::net::{Ipv4Addr, TcpListener};
use std::sync::Arc;

use serde::Serialize;

use super::args::{Common, DeskArgs};
use super::usage::Usage;
use super::{load, output};
use folder::Folder;
use guard::Guard;
use lesson::Desk;
use seats::{CourseSeat, PlayerSeat};

pub fn run(args: &DeskArgs, common: &Common) -> anyhow::Result<()> {
    let scripts = args.played.rules.clone();
    let effort = (args.played.effort.into(), args.played.assume.into());
    let desk = Desk::new(Folder::here()?, effort, scripts, common.units.into())?;
    let desk = Arc::new(desk);
    seat(&desk, args)?;
    let listener = listen(args.port)?;
    let guard = Guard::new(listener.local_addr()?.port())?;
    let address = guard.address();
    tell(&address, common)?;
    work::set_up(&desk);
    if !args.no_open && open::that_detached(&address).is_err() {
        output::note("no browser could be opened: open the address above in one");
    }
    serve::serve(desk, guard, listener)
}

/// Whom and where the command line names; its faults are told as by every command.
fn seat(desk: &Desk, args: &DeskArgs) -> anyhow::Result<()> {
    let player = match &args.player {
        Some(text) => Some(PlayerSeat::typed(text, &args.played.bay, &desk.folder)?),
        None => None,
    };
    let course = match &args.course {
        Some(text) => {
            let seat =
                CourseSeat::typed(text, load::setup(&args.played.setup)?, &args.played.rules)?;
            seat.on(&desk.lesson().day, &desk.folder)?;
            Some(seat)
        }
        None => None,
    };
    if let Some(seat) = &player {
        actions::note(seat);
    }
    let sex = player.as_ref().map(|seat| seat.golfer.sex);
    let sex = sex.unwrap_or(costcard::player::Sex::Men);
    let goal = args.goal.as_deref().map(|goal| load::goal(goal, sex));
    let goal = goal.transpose()?.map(|goal| goal.handicap);
    desk.change(|lesson| {
        lesson.player = player;
        lesson.course = course;
        lesson.goal = goal;
    });
    Ok(())
}

/// Listens on this machine's own address: nobody else's machine reaches it.
fn listen(port: u16) -> Result<TcpListener, Usage> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| Usage {
        message: format!("the desk cannot listen on port {port}: {error}"),
        hint: "leave `--port` out, and one that is free is taken".to_owned(),
    })
}

fn tell(address: &str, common: &Common) -> anyhow::Result<()> {
    #[derive(Serialize)]
    struct Document<'a> {
        address: &'a str,
    }
    if common.json {
        let document = serde_json::to_string(&Document { address })?;
        return output::print(&(document + "\n"));
    }
    output::print(&format!("{address}\n"))
}
