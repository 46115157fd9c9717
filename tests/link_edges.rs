//! What a link carries of a plan and of what was done: day by day and number by number, and what no link can say.

use first_truss::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use first_truss::notebook::{
    DayPage, Done, Entry, FeedPlan, Field, GroupRecord, LinkError, MOST_CHARACTERS, Notebook, PestRecord, Plan, Reply, Treatment, Visits,
    open, seal,
};
use first_truss::pest::{Control, Pest};
use first_truss::quantity::{UnitSystem, Units};
use first_truss::today::Task;
use first_truss::water::{Container, Exposure, Feel, Medium, Place, Placement, PlantedFrom, Stay};
use wasm_bindgen_test::wasm_bindgen_test;

use crate::links::{FIRST_PLAN, plan_of};

fn july(day: i8) -> CivilDay {
    CivilDay::new(2026, 7, day).expect("a day")
}

/// A link with this body, whose check holds: what another hand could make.
fn sealed(body: &str) -> String {
    let mut check = crc::Crc::<u32, crc::Table<1>>::new(&crc::CRC_32_ISO_HDLC).checksum(body.as_bytes());
    let mut digits = ['0'; 7];
    for digit in digits.iter_mut().rev() {
        *digit = char::from_digit(check % 36, 36).expect("a digit");
        check /= 36;
    }
    digits.iter().fold(body.to_owned() + ".", |link, digit| link + &digit.to_string())
}

/// A plan of the ninth of July for one group, with what `change` puts into its notebook.
fn plan(change: impl FnOnce(&mut Notebook)) -> Plan {
    let mut notebook = Notebook::default();
    notebook.turn_to(july(9));
    change(&mut notebook);
    plan_of(&notebook, ("", false), july(9))
}

fn opened(plan: &Plan) -> Plan {
    Plan::open(&plan.link()).expect("a plan")
}

fn typed(notebook: &mut Notebook, field: Field, text: &str) {
    let units = notebook.units;
    notebook.entry_mut(0, field).expect("a place").type_text(field, units, text);
}

/// The days of the feed, the plants and the amounts are those that were put in: far ahead, at the seams of the numbers that hold
/// them, and of groups that there are.
#[wasm_bindgen_test(unsupported = test)]
fn a_feed_falls_on_the_days_and_plants_that_were_meant() {
    let days: Vec<CivilDay> = [0, 1, 39, 40, 41, 79, 80, 85].map(|ahead| july(9).days_later(ahead)).to_vec();
    let mut plan = plan(|_| ());
    plan.feed = Some(FeedPlan {
        amount: 40.25,
        in_grams: true,
        each: 1.25,
        groups: vec![0, 2, 5, 8],
        days: days.clone(),
    });
    let opened = opened(&plan);
    let feed = opened.feed.as_ref().expect("a feed");
    assert_eq!(feed.days, days);
    assert_eq!(feed.groups, [0, 2, 5], "the ninth there cannot be");
    assert!((feed.amount - 40.25).abs() < 1e-9 && (feed.each - 1.25).abs() < 1e-9 && feed.in_grams);
    for ahead in 0..90 {
        let day = july(9).days_later(ahead);
        assert_eq!(opened.feeds_on(day), days.contains(&day), "{day}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn treatments_fall_on_their_days_and_the_last_day_is_the_last() {
    let mut plan = plan(|_| ());
    (plan.first, plan.days) = (july(12), 10);
    plan.treatments = [1, 61, 100, 120]
        .map(|ahead| Treatment {
            day: july(9).days_later(ahead),
            pest: Pest::SpiderMite,
            control: Control::WaterJet,
            plants: None,
        })
        .to_vec();
    let treatments = plan.treatments.clone();
    let opened = opened(&plan);
    assert_eq!(opened.treatments, treatments);
    // Ten days from the twelfth end with the twenty-first.
    assert_eq!((opened.first, opened.last()), (july(12), july(21)));
    assert!(!opened.feeds_on(july(12)), "without a feed no day is one");
}

/// How often someone comes is what the grower was shown; a link of an older page leaves it open.
#[wasm_bindgen_test(unsupported = test)]
fn whoever_waters_is_asked_what_the_grower_was_shown() {
    let mut plan = plan(|_| ());
    assert_eq!(opened(&plan).visits, None);
    for (every, ahead, twice_a_day) in [(0, 1, false), (1, 0, true), (2, 7, false), (60, 120, false)] {
        let visits = Visits {
            every,
            by: july(9).days_later(ahead),
            twice_a_day,
        };
        plan.visits = Some(visits);
        assert_eq!(opened(&plan).visits, Some(visits));
    }
    plan.visits = Some(Visits {
        every: 61,
        by: july(9).days_later(121),
        twice_a_day: false,
    });
    let longest = opened(&plan).visits.expect("visits");
    assert_eq!((longest.every, longest.by), (60, july(9).days_later(120)));
    let told = |visits: &str| Plan::open(&sealed(&["s1.hA7m2E", visits, ".g"].concat())).map(|plan| plan.visits.map(|visits| visits.every));
    assert_eq!(told("1o-3c"), Ok(Some(60)));
    for beyond in ["1p-1", "1-3d", "1-1-2"] {
        assert_eq!(
            told(beyond),
            Err(LinkError::Impossible {
                what: "how often someone comes"
            }),
            "{beyond}"
        );
    }
}

/// A can that is told in litres stays so, to one who measures in gallons too.
#[wasm_bindgen_test(unsupported = test)]
fn the_can_goes_along_in_its_own_measure() {
    let can = |system: UnitSystem, text: &str| {
        let sent = plan(|notebook| {
            notebook.units.system = system;
            typed(notebook, Field::Can, text);
        });
        let can = opened(&sent).notebook.can;
        assert_eq!(can, sent.notebook.can, "a plan and its link say the same");
        (can.text().to_owned(), can.value())
    };
    let told = |text: &str, litres: f64| (text.to_owned(), Some(litres));
    assert_eq!(can(UnitSystem::Imperial, "9 l"), told("9 litres", 9.0));
    assert_eq!(can(UnitSystem::Imperial, "9"), told("9", 9.0 * 4.546_09));
    assert_eq!(can(UnitSystem::Metric, "9"), told("9", 9.0));
    let (text, litres) = can(UnitSystem::Metric, "2 UK gallons");
    assert_eq!(text, "2 UK gallons");
    assert!((litres.expect("a can") - 9.092_18).abs() < 1e-6, "{litres:?}");
    let (text, litres) = can(UnitSystem::Imperial, "2 US gallons");
    assert_eq!(text, "2 US gallons");
    assert!((litres.expect("a can") - 7.570_82).abs() < 1e-5, "{litres:?}");
    assert_eq!(can(UnitSystem::Us, "").0, "");
    assert_eq!(can(UnitSystem::Imperial, "litres"), ("litres".to_owned(), None));
}

/// The place, the can, the units, yesterday and what was poured already go along.
#[wasm_bindgen_test(unsupported = test)]
fn what_the_dose_hangs_on_goes_along() {
    let south = plan(|notebook| {
        notebook.units = Units {
            system: UnitSystem::Metric,
            ..Units::default()
        };
        typed(notebook, Field::Latitude, "-33.5");
        typed(notebook, Field::Can, "9.5");
        typed(notebook, Field::Plants, "12");
        typed(notebook, Field::PotWidth, "29.5");
        notebook.morning.choose_sky(Sky::Dark);
        notebook.morning.thermometer = Thermometer::Inside;
        notebook.note(july(9), |page| page.note(0, |group| group.given = Some(1.25)));
    });
    let opened = opened(&south);
    let notebook = &opened.notebook;
    assert_eq!(notebook.units.system, UnitSystem::Metric);
    assert_eq!((notebook.latitude.text(), notebook.latitude.value()), ("−33.5", Some(-33.5)));
    assert_eq!((notebook.can.text(), notebook.can.value()), ("9.5", Some(9.5)));
    // As they were typed, so that they can be read and changed.
    assert_eq!(
        [&notebook.groups[0].plants, &notebook.groups[0].pot_width].map(Entry::text),
        ["12", "29.5"]
    );
    assert_eq!(notebook.morning.thermometer, Thermometer::Inside);
    let given = notebook.day(july(9)).and_then(|page| page.group(0)?.given);
    assert_eq!(given, Some(1.25));
    assert_eq!(opened.notebook.groups[0].looked, Some(july(9)));
    let link = south.link();
    assert!(link.len() < 80, "no more decimals than are typed: {link}");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_link_is_written_as_short_as_can_be() {
    let mut plan = plan(|notebook| {
        typed(notebook, Field::Can, "2.5");
    });
    "Plot 14".clone_into(&mut plan.notebook.plot.name);
    plan.treatments = vec![Treatment {
        day: july(13),
        pest: Pest::Whitefly,
        control: Control::Vacuum,
        plants: None,
    }];
    let link = plan.link();
    // Letters stand for themselves, nought has no sign, 2.5 gallons are 250 hundredths: 6 × 36 + 34.
    assert!(link.contains("W6yNPlot_14.g"), "{link}");
    assert!(link.contains(".tD4P0C0."), "{link}");
}

#[wasm_bindgen_test(unsupported = test)]
fn what_cannot_be_is_refused_by_name_though_the_check_holds() {
    let accepted = |body: &str| Plan::open(&sealed(body)).map(drop);
    let refused = |what| Err(LinkError::Impossible { what });
    assert_eq!(accepted("s1.hA7m2.g"), Ok(()));
    // Nine groups, forty-one treatments.
    assert_eq!(accepted(&("s1.hA7m2".to_owned() + &".g".repeat(8))), Ok(()));
    assert_eq!(
        accepted(&("s1.hA7m2".to_owned() + &".g".repeat(9))),
        refused("more groups than eight")
    );
    assert_eq!(accepted(&("s1.hA7m2.g".to_owned() + &".tD4P0C0".repeat(40))), Ok(()));
    assert_eq!(
        accepted(&("s1.hA7m2.g".to_owned() + &".tD4P0C0".repeat(41))),
        refused("so many treatments")
    );
    // Latitudes to 90 in halves, three systems of units, days to the end of 2099, and none left out.
    assert_eq!(accepted("s1.hA7m2L50.g"), Ok(()));
    assert_eq!(accepted("s1.hA7m2L51.g"), refused("Latitude"));
    assert_eq!(accepted("s1.hA7m2U2.g"), Ok(()));
    assert_eq!(accepted("s1.hA7m2U3.g"), refused("a choice"));
    assert_eq!(accepted("s1.hAspb.g"), Ok(()));
    assert_eq!(accepted("s1.hAspc.g"), refused("a day"));
    assert_eq!(accepted("s1.h.g"), refused("a day"));
    assert_eq!(accepted("s1.hA7m2-1.g"), refused("a day"), "two numbers for one day");
    // The thirty-first of February: (26 × 12 + 1) × 31 + 30.
    assert_eq!(accepted("s1.hA7id.g"), refused("a day"));
    // Eight groups can be fed, on days of four numbers of forty; there are three exposures from number twenty on.
    assert_eq!(accepted("s1.hA7m2.g.fP73"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.fP74"), refused("the plants that are fed"));
    assert_eq!(accepted("s1.hA7m2.g.fDe13wu1of"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.fDe13wu1og"), refused("the days of the feed"));
    assert_eq!(accepted("s1.hA7m2.gOm"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.gOn"), refused("a place"));
    // A number has ten digits at most, a link two thousand characters.
    assert_eq!(accepted("s1.hA000000007m2.g"), refused("its form"));
    assert_eq!(accepted("s1.hA00000007m2.g"), Ok(()));
    let long = |length: usize| Plan::open(&format!("{:s<length$}", "s1.")).map(drop);
    assert_eq!(long(MOST_CHARACTERS), Err(LinkError::CutShort));
    assert_eq!(long(MOST_CHARACTERS + 1), Err(LinkError::TooLong));
}

/// Where plants stood before they were moved goes along whole, in each of its parts.
#[wasm_bindgen_test(unsupported = test)]
fn where_they_stood_before_a_move_goes_along() {
    let usual = Placement::default();
    let made = july(9);
    let containers = [
        Container::GrowBag { litres: 36.5, plants: 2 },
        Container::Pot { litres: 0.3 },
        Container::Basket { litres: 9.75 },
        Container::Border,
        Container::Ring,
    ];
    let mut placements: Vec<Placement> = containers.map(|container| Placement { container, ..usual }).into();
    for (settled, drains) in [
        (false, Some(false)),
        (false, Some(true)),
        (true, None),
        (true, Some(false)),
        (true, Some(true)),
    ] {
        placements.push(Placement { settled, drains, ..usual });
    }
    placements.extend([
        Placement {
            ground: Some(0.25),
            ..usual
        },
        Placement {
            medium: Medium::Loam,
            planted_from: PlantedFrom::Pot7,
            ..usual
        },
        Placement {
            place: Place::Outdoors {
                exposure: Exposure::Exposed,
            },
            ..usual
        },
    ]);
    for (planted, ago) in [(0, 0), (1, 0), (60, 7), (999, 41)] {
        placements.push(Placement {
            planted: Some(made.days_later(-ago - planted)),
            ..usual
        });
        let told = plan(|notebook| {
            for placement in placements.iter().skip(4) {
                notebook.note(made.days_later(-ago), |page| page.note(0, |group| group.before = Some(*placement)));
            }
        });
        assert_eq!(opened(&told), told);
    }
    for placement in placements {
        let told = plan(|notebook| notebook.note(made, |page| page.note(0, |group| group.before = Some(placement))));
        let kept = told.notebook.day(made).and_then(|page| page.group(0)?.before);
        assert!(
            kept.is_some_and(|kept| kept.container == placement.container && kept.drains == placement.drains),
            "{placement:?}"
        );
        assert_eq!(
            kept.map(|kept| (kept.settled, kept.ground)),
            Some((placement.settled, placement.ground))
        );
        // Earlier than 999 days before is as early as that.
        let earliest = made.days_later(-999);
        assert_eq!(
            kept.and_then(|kept| kept.planted),
            placement.planted.map(|planted| planted.max(earliest))
        );
        let rest = |placement: Placement| (placement.place, placement.medium, placement.planted_from);
        assert_eq!(kept.map(rest), Some(rest(placement)));
        let there = opened(&told);
        assert_eq!(there.notebook.last_move(0, made), kept.map(|kept| (made, kept)));
        let line = seal(&there.notebook, 1);
        assert_eq!(open(&line).map(|opened| opened.notebook), Ok(there.notebook));
    }
    let accepted = |body: &str| Plan::open(&sealed(body)).map(drop);
    let refused = |what| Err(LinkError::Impossible { what });
    // Five containers, three ways to drain with old compost or new, and a pot that can be.
    assert_eq!(accepted("s1.hA7m2.g.mP4"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mP0-hv05c-3"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mP5-hv05c-3"), refused("where it stood"));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-0-5"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-0-6"), refused("where it stood"));
    assert_eq!(accepted("s1.hA7m2.g.mP1"), refused("where it stood"));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-3"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-4"), refused("where it stood"));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-0-0-0-0-2"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mP4-0-0-0-0-0-0-3"), refused("where it stood"));
    // The first to the eighth group, up to forty-one days ago.
    assert_eq!(accepted("s1.hA7m2.g.mG7P4"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mG8P4"), refused("a group that was moved"));
    assert_eq!(accepted("s1.hA7m2.g.mD15P4"), Ok(()));
    assert_eq!(accepted("s1.hA7m2.g.mD16P4"), refused("the day of a move"));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_done_cannot_be_out_of_order_or_on_too_many_days() {
    let accepted = |body: &str| Reply::open(&sealed(body)).map(drop);
    let refused = |what| Err(LinkError::Impossible { what });
    assert_eq!(accepted("a1.hP1A7m2.dD1.dD2"), Ok(()));
    assert_eq!(accepted("a1.hP1A7m2.dD2.dD1"), refused("its days"));
    assert_eq!(accepted("a1.hP1A7m2.dD2.dD2"), refused("its days"));
    let days = |count: u32| {
        let number = |day: u32| [day / 36, day % 36].map(|digit| char::from_digit(digit, 36).expect("a digit"));
        (1..=count).fold("a1.hP1A7m2".to_owned(), |body, day| body + ".dD" + &String::from_iter(number(day)))
    };
    assert_eq!(accepted(&days(60)), Ok(()));
    assert_eq!(accepted(&days(61)), refused("its days"));
    // Thirty-two tasks can be ticked.
    assert_eq!(accepted("a1.hP1A7m2.dD1T1z141z3"), Ok(()));
    assert_eq!(accepted("a1.hP1A7m2.dD1T1z141z4"), refused("what was ticked"));
    // A day of the next century is told as one of the last year that a link knows.
    let far = CivilDay::new(2103, 7, 9).expect("a day");
    assert_eq!(
        Reply::of(&Notebook::default(), 1, far, far).made,
        CivilDay::new(2099, 7, 9).expect("a day")
    );
}

/// Each thing that was done is told by itself, and what nobody said is not.
#[wasm_bindgen_test(unsupported = test)]
fn each_thing_that_was_done_is_told_by_itself() {
    let mut notebook = Notebook::default();
    for _ in 0..3 {
        notebook.add_group(GroupRecord::default());
    }
    notebook.turn_to(july(12));
    notebook.note(july(10), |page| {
        "9.05".clone_into(&mut page.noted_at);
        page.note(0, |group| group.given = Some(0.8));
        page.note(1, |group| group.fed = Some(1.5));
        page.note(2, |group| group.feel = Some(Feel::Dry));
        page.note(3, |group| group.given = Some(0.0));
    });
    // Noted on a later day, and of one group alone: of the others nothing is said.
    notebook.note(july(11), |page| page.note(0, |group| group.given = Some(0.0)));
    let reply = Reply::open(&Reply::of(&notebook, 7, july(9), july(12)).link()).expect("a reply");
    let told = |day: usize, id: u32| reply.days[day].group(id).map(|group| (group.given, group.fed, group.feel));
    assert_eq!(told(0, 0), Some((Some(0.8), None, None)));
    assert_eq!(told(0, 1), Some((None, Some(1.5), None)));
    assert_eq!(told(0, 2), Some((None, None, Some(Feel::Dry))));
    assert_eq!(told(0, 3), Some((Some(0.0), None, None)));
    assert_eq!((told(1, 0), told(1, 1)), (Some((Some(0.0), None, None)), None));
}

/// The plants of a card stay with whoever waters from the first day away; of a group that was not handed over nothing of that is taken.
#[wasm_bindgen_test(unsupported = test)]
fn the_plants_of_a_card_stay_with_whoever_waters() {
    let mut plan = Plan::open(FIRST_PLAN).expect("a plan");
    plan.first = plan.made.days_later(2);
    let mut card = plan.notebook.clone();
    card.add_group(GroupRecord::default());
    // An older page has written noughts from the second day away, and somebody has ticked one.
    let day = |days: i32| plan.made.days_later(days);
    let given = |card: &Notebook| [1, 2, 3, 4].map(|days| card.day(day(days)).and_then(|page| page.group(0)?.given));
    for days in 1..=4 {
        card.note(day(days), |page| {
            if days == 4 {
                "9.05".clone_into(&mut page.noted_at);
            }
            page.note(0, |group| (group.given, group.fed) = (Some(0.0), Some(0.5)));
            page.note(1, |group| group.given = Some(if days == 3 { 1.5 } else { 0.0 }));
        });
    }
    let nought = Some(0.0);
    plan.look_after(&mut card);
    assert_eq!(given(&card), [nought, nought, None, nought]);
    assert_eq!(card.day(day(3)).and_then(|page| page.group(1)?.given), Some(1.5));
    let stay = |group: &GroupRecord| group.handed.map(|handed| handed.stay);
    let stays = Some(Stay {
        from: plan.first,
        kept_on: None,
    });
    assert_eq!(card.groups.iter().map(stay).collect::<Vec<_>>(), [Some(stays), Some(stays), None]);
    // Later it is as it was, and what is noted as nothing stays.
    card.note(day(3), |page| page.note(0, |group| group.given = nought));
    plan.look_after(&mut card);
    assert_eq!(given(&card), [nought; 4]);
    // The link says so by itself.
    assert_eq!(Plan::open(&plan.link()).expect("a plan").notebook, plan.notebook);
}

/// Noted at home: what was done joins what is there, changes nothing of that, and a treatment goes to its own programme.
#[wasm_bindgen_test(unsupported = test)]
fn a_list_that_came_back_is_noted_beside_what_is_there() {
    let mut mine = Notebook::default();
    mine.turn_to(july(12));
    mine.note(july(10), |page| page.note(0, |group| group.given = Some(2.0)));
    let programme = |id: u64, pest: Pest, control: Control| {
        let mut programme = PestRecord {
            id,
            pest,
            ..PestRecord::default()
        };
        programme.choose(control);
        programme
    };
    mine.programmes = vec![
        programme(1, Pest::SpiderMite, Control::Vacuum),
        programme(2, Pest::Whitefly, Control::ContactSpray),
        programme(3, Pest::Whitefly, Control::Vacuum),
    ];
    let mut theirs = Notebook::default();
    theirs.add_group(GroupRecord::default());
    theirs.turn_to(july(12));
    theirs.note(july(10), |page| {
        "9.05".clone_into(&mut page.noted_at);
        page.note(0, |group| {
            (group.given, group.fed, group.feel) = (Some(1.0), Some(0.5), Some(Feel::Moist));
        });
        page.note(1, |group| group.given = Some(3.0));
        page.tick(Done::Task(Task::Tap), true);
        page.tick(Done::Treated(Pest::Whitefly, Control::Vacuum, None), true);
    });
    let reply = Reply::of(&theirs, 7, july(9), july(12));
    reply.note_in(&mut mine);
    let page = mine.day(july(10)).expect("the day");
    let noted = page.group(0).map(|group| (group.given, group.fed, group.feel));
    assert_eq!(noted, Some((Some(2.0), Some(0.5), Some(Feel::Moist))), "what was noted here stays");
    assert_eq!(page.group(1), None, "there is no such group here");
    assert_eq!(
        page.done,
        [Done::Task(Task::Tap), Done::Treated(Pest::Whitefly, Control::Vacuum, None)]
    );
    let deeds: Vec<usize> = mine.programmes.iter().map(|programme| programme.deeds.len()).collect();
    assert_eq!(deeds, [0, 0, 1]);
    assert_eq!(mine.programmes[2].deeds[0].day, july(10));
    // A spray that stands already stays, with its product; one that was left out was done after all.
    mine.programmes.truncate(2);
    let sprayed = &mut mine.programmes[1];
    sprayed.add_product(Control::ContactSpray);
    sprayed.note(july(10), Control::ContactSpray, 2, true);
    sprayed.note(july(11), Control::ContactSpray, 1, false);
    let spray = |page: &mut DayPage| page.tick(Done::Treated(Pest::Whitefly, Control::ContactSpray, None), true);
    theirs.note(july(10), spray);
    theirs.note(july(11), spray);
    // What took its turn with it is noted with its own product.
    theirs.note(july(11), |page| {
        page.tick(Done::Treated(Pest::Whitefly, Control::OtherSpray, None), true);
    });
    Reply::of(&theirs, 7, july(9), july(12)).note_in(&mut mine);
    let deeds = mine.programmes[1].deeds.iter();
    let deeds: Vec<_> = deeds.map(|deed| (deed.day, deed.control, deed.product, deed.is_done)).collect();
    assert_eq!(
        deeds,
        [
            (july(10), Control::ContactSpray, 2, true),
            (july(10), Control::Vacuum, 0, true),
            (july(11), Control::ContactSpray, 1, true),
            (july(11), Control::OtherSpray, 3, true),
        ]
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn what_a_neighbour_saw_of_this_morning_is_entered_where_nothing_is() {
    let mut theirs = Notebook::default();
    theirs.add_group(GroupRecord::default());
    theirs.turn_to(july(12));
    let clear = Yesterday {
        sun: Some(Sun::Word(Sky::Clear)),
        ..Yesterday::default()
    };
    theirs.note(july(11), |page| page.weather = Some(clear));
    theirs.note(july(12), |page| {
        page.note(0, |group| group.feel = Some(Feel::Sodden));
        page.note(1, |group| group.feel = Some(Feel::Dry));
    });
    let reply = Reply::of(&theirs, 7, july(9), july(12));
    let noted_on = |day, sky: Option<Sky>, hours: &str| {
        let mut mine = Notebook::default();
        mine.add_group(GroupRecord::default());
        mine.turn_to(day);
        mine.morning.sky = sky;
        mine.morning.sunshine_hours.retype_text(Field::SunshineHours, mine.units, hours);
        mine.groups[1].feel = Some(Feel::Moist);
        reply.note_in(&mut mine);
        (mine.morning.sky, mine.groups[0].feel, mine.groups[1].feel)
    };
    let (dull, moist) = (Some(Sky::Dull), Some(Feel::Moist));
    assert_eq!(noted_on(july(12), None, ""), (Some(Sky::Clear), Some(Feel::Sodden), moist));
    assert_eq!(
        noted_on(july(12), dull, ""),
        (dull, Some(Feel::Sodden), moist),
        "what was told stays"
    );
    assert_eq!(noted_on(july(12), None, "3"), (None, Some(Feel::Sodden), moist), "hours too");
    assert_eq!(noted_on(july(13), None, ""), (None, None, moist), "a later morning is another");
    // What the own page says already stands there, and is what is entered.
    let mut mine = Notebook::default();
    mine.turn_to(july(12));
    mine.note(july(12), |page| page.note(0, |group| group.feel = Some(Feel::Dry)));
    reply.note_in(&mut mine);
    assert_eq!(mine.groups[0].feel, Some(Feel::Dry));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_longest_absence_with_the_most_groups_can_be_told_of() {
    let mut theirs = Notebook::default();
    while theirs.add_group(GroupRecord::default()).is_some() {}
    let last = july(1).days_later(59);
    theirs.turn_to(last);
    for ahead in 0..60 {
        theirs.note(july(1).days_later(ahead), |page| {
            "9.05".clone_into(&mut page.noted_at);
            page.weather = Some(Yesterday {
                sun: Some(Sun::Word(Sky::Clear)),
                ..Yesterday::default()
            });
            for id in 0..8 {
                page.note(id, |group| {
                    (group.given, group.fed, group.feel) = (Some(12.34), Some(1.25), Some(Feel::Dry));
                });
            }
        });
    }
    let reply = Reply::of(&theirs, u32::MAX, july(1), last);
    assert_eq!(reply.days.len(), 60);
    let link = reply.link();
    assert_eq!(
        Reply::open(&link).map(|opened| opened.days.len()),
        Ok(60),
        "{} characters",
        link.len()
    );
}

/// Two programmes against one pest, each for its own plants: what was done to some is noted of those.
#[wasm_bindgen_test(unsupported = test)]
fn a_treatment_is_noted_of_the_plants_that_got_it() {
    let programme = |id: u64, plants: Option<u32>| {
        let mut programme = PestRecord {
            id,
            plants,
            ..PestRecord::default()
        };
        programme.turn_to_pest(Pest::Whitefly);
        programme.choose(Control::Vacuum);
        programme
    };
    let noted = |plants: Option<u32>, programmes: Vec<PestRecord>| {
        let mut theirs = Notebook::default();
        theirs.turn_to(july(12));
        let done = Done::Treated(Pest::Whitefly, Control::Vacuum, plants);
        theirs.note(july(10), |page| page.tick(done, true));
        let kept = open(&seal(&theirs, 1)).expect("just sealed").notebook;
        assert_eq!(kept.day(july(10)).map(|page| page.done.clone()), Some(vec![done]));
        let link = Reply::of(&theirs, 7, july(9), july(12)).link();
        let reply = Reply::open(&link).expect("a reply");
        assert_eq!(reply.days[0].done, [done]);
        let mut mine = Notebook {
            programmes,
            ..Notebook::default()
        };
        reply.note_in(&mut mine);
        mine.programmes.iter().map(|programme| programme.deeds.len()).collect::<Vec<_>>()
    };
    let both = || vec![programme(1, Some(0)), programme(2, Some(1))];
    assert_eq!(noted(Some(0), both()), [1, 0]);
    assert_eq!(noted(Some(1), both()), [0, 1]);
    assert_eq!(noted(Some(2), both()), [0, 0], "its programme was ended");
    assert_eq!(noted(Some(2), vec![programme(1, None)]), [1], "of all plants");
    assert_eq!(noted(None, both()), [0, 1], "an older program does not say which");

    let treatment = |control: Control, plants: Option<u32>| Treatment {
        day: july(10),
        pest: Pest::Whitefly,
        control,
        plants,
    };
    let tells = |plants: Option<u32>, treatment: Treatment| Done::Treated(Pest::Whitefly, Control::Vacuum, plants).is_of(&treatment);
    assert!(tells(Some(1), treatment(Control::Vacuum, Some(1))) && tells(None, treatment(Control::Vacuum, Some(1))));
    assert!(!tells(Some(1), treatment(Control::Vacuum, Some(2))) && !tells(Some(1), treatment(Control::WaterJet, Some(1))));
    assert!(!Done::Task(Task::Tap).is_of(&treatment(Control::Vacuum, None)));
}

/// What older and odd texts say of a treatment.
#[wasm_bindgen_test(unsupported = test)]
fn a_ticked_treatment_is_read_with_care() {
    let mut notebook = Notebook::default();
    notebook.note(july(10), |page| {
        page.unknown = [
            "treated-whitefly=vacuum",
            "treated-whitefly=vacuum 3",
            "treated-whitefly=vacuum x",
            "treated-whitefly=brush 3",
        ]
        .map(str::to_owned)
        .to_vec();
    });
    let kept = open(&seal(&notebook, 1)).expect("just sealed").notebook;
    let page = kept.day(july(10)).expect("the day");
    let done = |plants| Done::Treated(Pest::Whitefly, Control::Vacuum, plants);
    assert_eq!(page.done, [done(None), done(Some(3))]);
    assert_eq!(page.unknown, ["treated-whitefly=vacuum x", "treated-whitefly=brush 3"]);
}

/// What a neighbour poured on plants that were removed since is still theirs.
#[wasm_bindgen_test(unsupported = test)]
fn a_list_tells_of_plants_that_are_gone_too() {
    let mut mine = Notebook::default();
    mine.add_group(GroupRecord::default());
    mine.note(july(8), |page| page.note(1, |group| group.given = Some(1.0)));
    mine.remove_group(1);
    let mut theirs = Notebook::default();
    theirs.note(july(10), |page| {
        page.note(1, |group| group.given = Some(2.0));
        page.note(2, |group| group.given = Some(3.0));
    });
    Reply::of(&theirs, 7, july(9), july(12)).note_in(&mut mine);
    let page = mine.day(july(10)).expect("the day");
    assert_eq!(page.group(1).and_then(|group| group.given), Some(2.0));
    assert_eq!(page.group(2), None, "nobody knows of it");
}
