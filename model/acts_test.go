package model_test

import (
	"time"

	"pgregory.net/rapid"

	"tubside/model"
)

// act draws one thing a grower may do. Some of it cannot be: then the book must
// refuse it.
type act func(rt *rapid.T, d *diary) (model.Fact, model.IDs)

// about is an act on plants that stand as a word of Choose says.
func about(f model.Fact, word string) act {
	return func(rt *rapid.T, d *diary) (model.Fact, model.IDs) { return f, some(rt, d, word) }
}

// some draws plants that stand as a word says, and now and then any at all.
func some(rt *rapid.T, d *diary, word string) model.IDs {
	from, err := d.Choose(word)
	if err != nil {
		rt.Fatal(err)
	}
	if len(from) == 0 || rapid.IntRange(0, 9).Draw(rt, "slip") == 0 {
		from = model.IDs{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	}
	return rapid.SliceOfNDistinct(rapid.SampledFrom(from), 1, min(4, len(from)), rapid.ID).Draw(rt, "plants")
}

func newRow(rt *rapid.T, d *diary) model.Plant {
	home := model.Home{Shelf: rapid.SampledFrom([]string{"", "A", "B"}).Draw(rt, "shelf")}
	return model.Plant{ID: d.NextID(), Count: rapid.IntRange(1, 5).Draw(rt, "count"), Home: home}
}

// acts begins with the way round of a soak day, so that much of what is drawn
// comes home again.
var acts = []act{
	about(&model.Hung{}, "dry"), about(&model.FoundDry{}, "drying"), about(&model.Out{Shaken: true}, "soaking"),
	soaks("pulled"),
	about(&model.Hung{}, "dry"), about(&model.FoundDry{}, "drying"), about(&model.Out{Inverted: true}, "soaking"),
	soaks("pulled"),
	soaks("all"), soaks("dry"), about(&model.Pull{}, "all"), about(&model.PutBack{}, "pulled"),
	about(&model.Damp{}, "drying"), about(&model.Damp{}, "dry"),
	about(&model.Mist{}, "all"), about(&model.Look{Signs: model.LooksFine}, "all"),
	about(&model.Note{Text: "seen"}, "all"),
	about(&model.Bloom{}, "all"), about(&model.Bloom{Over: true}, "bloom"), about(&model.Rot{}, "all"),
	about(&model.Rot{Over: true}, "rot"),
	about(&model.Move{To: model.Home{Shelf: "C"}}, "all"), about(&model.Leave{How: model.Sold}, "all"),
	about(&model.Leave{How: model.Lost, Cause: "rot"}, "soaking"),
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Add{Plants: []model.Plant{newRow(rt, d)}}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		told := newRow(rt, d)
		told.ID = some(rt, d, "all")[0]
		return &model.Import{File: "shelf.csv", Added: []model.Plant{newRow(rt, d)}, Changed: []model.Plant{told}, BloomOn: model.IDs{told.ID},
			RotOff: model.IDs{told.ID}, TroubleOn: map[model.Ailment]model.IDs{model.Sun: {told.ID}}, TroubleOff: map[model.Ailment]model.IDs{model.Mites: {told.ID}}}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Split{New: newRow(rt, d)}, some(rt, d, "all")[:1]
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Reading{TempC: 21, RH: 40, Fan: rapid.SampledFrom(model.Fans).Draw(rt, "fan")}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.RuleSet{Name: "dip-to", Value: float64(rapid.IntRange(1, 40).Draw(rt, "minutes"))}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		v := model.Vessel{Name: rapid.SampledFrom([]string{"tub", " Tub", "sink", "bucket 1 "}).Draw(rt, "vessel"),
			Litres: 30}
		return &model.VesselSet{Vessel: v, Away: rapid.Bool().Draw(rt, "away")}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Strike{Seq: model.Seq(rapid.IntRange(1, len(d.Entries())+1).Draw(rt, "entry"))}, nil
	},
	undo, undo,

	about(&model.LookedOver{}, "all"), about(&model.Trouble{What: model.Scale}, "all"),
	about(&model.Trouble{What: model.Scale, Over: true}, "trouble"),
	about(&model.Quarantine{}, "all"), about(&model.Quarantine{Over: true, Early: true}, "new"),
	about(&model.Quarantine{Over: true}, "new"),
	about(&model.Offsets{Count: 2, Share: 0.5}, "all"), about(&model.Fading{}, "all"),
	about(&model.Fading{Over: true}, "fading"),
	about(&model.Bloom{Stage: model.Bud}, "all"), about(&model.Bloom{Stage: model.Spent}, "bloom"),
	about(&model.Feed{How: model.ByMist, Mix: quarter}, "all"), about(&model.Mist{Of: model.Rain}, "all"),
	about(&model.Weighing{}, "all"), bare(&model.Weighing{Over: true}), about(&model.Weigh{Grams: 95, Wet: true}, "soaking"),
	about(&model.Weigh{Grams: 80}, "all"), about(&model.Weigh{Grams: 90, Wet: true}, "drying"),
	bare(&model.Bottle{Fed: &quarter}, &model.Bottle{}, &model.Bottle{Empty: true}),
	bare(&model.Fill{Vessel: "tub"}, &model.Fill{Vessel: "bucket 1", Fed: &quarter}, &model.Drain{Vessel: "tub"},
		&model.Sample{Vessel: "tub", EC: 0.3}),
	bare(&model.WindowSet{Window: model.WindowOpen}, &model.Outside{TempC: -5, RH: 80},
		&model.BenchSet{Bench: model.Bench{Name: "Rack ", Room: 2}},
		&model.BenchSet{Bench: model.Bench{Name: " rack"}, Away: true}),
	bare(&model.ShelfSet{Name: "c", Factor: 1.4}, &model.Back{},
		&model.Trip{From: soakDay, Until: soakDay.AddDate(0, 0, 3)}),
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		mother := some(rt, d, "offsets")[0]
		return &model.Split{New: model.Plant{ID: d.NextID(), Count: 1, Mother: mother}, Offset: true}, model.IDs{mother}
	},
}

// quarter is fed water of a quarter of the label's rate.
var quarter = model.Mix{Powder: "20-10-20", Part: 0.25}

// bare is one of some acts about the house, which name no plants.
func bare(facts ...model.Fact) act {
	return func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return rapid.SampledFrom(facts).Draw(rt, "fact"), nil
	}
}

// soaks puts plants that stand as a word says into a vessel.
func soaks(word string) act {
	return func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		vessel := rapid.SampledFrom([]string{"tub", "bucket 1", "bucket 2", "sink"}).Draw(rt, "vessel")
		due := d.at.Add(time.Duration(rapid.IntRange(0, 200).Draw(rt, "minutes")) * time.Minute)
		return &model.Soak{Load: d.NextLoad(), Vessel: vessel, Due: due}, some(rt, d, word)
	}
}

func undo(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
	last, ok := d.LastToStrike()
	if !ok {
		return &model.Note{Text: "nothing to strike"}, nil
	}
	return &model.Strike{Seq: last.Seq}, nil
}
