//! What looks like a move or potting on, and what like a word that was missing; whether a container and a can were told.

use first_truss::notebook::{ContainerKind, Field, GroupRecord, Notebook, looks_like_a_move};
use first_truss::quantity::{UnitSystem, Units};
use first_truss::water::{Container, Exposure, Group, Place};
use wasm_bindgen_test::wasm_bindgen_test;

/// A pot under glass.
fn pot(litres: f64) -> Group {
    Group {
        container: Container::Pot { litres },
        ..Group::default()
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn twice_the_compost_is_potting_on_where_the_container_was_told() {
    let small = pot(4.0).placement();
    assert!(looks_like_a_move(&small, true, &pot(8.0), 0));
    assert!(!looks_like_a_move(&small, true, &pot(7.9), 30));
    assert!(!looks_like_a_move(&small, false, &pot(20.0), 30), "it was only taken for usual");
    assert!(!looks_like_a_move(&pot(20.0).placement(), true, &pot(4.0), 30));
}

#[wasm_bindgen_test(unsupported = test)]
fn out_of_doors_or_in_is_a_move_after_a_week() {
    let inside = pot(10.0);
    let outside = Group {
        place: Place::Outdoors {
            exposure: Exposure::default(),
        },
        ..pot(10.0)
    };
    for (stood, now) in [(&inside, &outside), (&outside, &inside)] {
        assert!(looks_like_a_move(&stood.placement(), false, now, 7));
        assert!(!looks_like_a_move(&stood.placement(), false, now, 6), "not yet");
        assert!(!looks_like_a_move(&now.placement(), true, now, 7), "nothing has changed");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_container_is_told_by_its_size_or_where_it_has_none() {
    let units = Units::default();
    let told = |change: &dyn Fn(&mut GroupRecord)| {
        let mut group = GroupRecord::default();
        change(&mut group);
        group.is_container_told()
    };
    assert!(!told(&|_| ()));
    assert!(!told(&|group| group.container = ContainerKind::Pot));
    assert!(told(&|group| group.container = ContainerKind::Border));
    assert!(told(&|group| group.container = ContainerKind::Ring));
    let sizes = [
        (Field::BagSize, "35"),
        (Field::PlantsInBag, "2"),
        (Field::PotSize, "10"),
        (Field::PotWidth, "25"),
    ];
    for (field, text) in sizes {
        assert!(
            told(&|group| group.entry_mut(field).expect("a field of a group").type_text(field, units, text)),
            "{field:?}"
        );
    }
    assert!(!told(&|group| group
        .entry_mut(Field::PotSize)
        .expect("a field of a group")
        .type_text(Field::PotSize, units, "many")));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_can_that_nobody_carries_is_asked_about() {
    let asks = |system, text: &str| {
        let mut notebook = Notebook::default();
        notebook.units.system = system;
        notebook.can.type_text(Field::Can, notebook.units, text);
        notebook.asks_cans_measure()
    };
    assert!(!asks(UnitSystem::Metric, ""));
    assert!(!asks(UnitSystem::Metric, "15"));
    assert!(asks(UnitSystem::Metric, "15.1"));
    assert!(asks(UnitSystem::Imperial, "4"), "18.2 litres");
    assert!(!asks(UnitSystem::Imperial, "4 gallons"), "its measure is told");
    assert!(!asks(UnitSystem::Metric, "16 litres"));
    // Too large for any can is told in a sentence of its own.
    assert!(!asks(UnitSystem::Metric, "9999"));
}
