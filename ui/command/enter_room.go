package command

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"tubside/model"
)

// roomActs is the room and the trips.
var roomActs = []act{
	{
		word: "trip", takes: "--from DAY --until DAY", words: noWords,
		short: "you will be, are or were away; a new trip replaces one that is not over",
		examples: [2]string{
			`trip --from 2026-05-07 --until 2026-05-19 --note "the islands"`,
			"trip --from 2026-05-07T08:00 --until 2026-05-09",
		},
		flags: []flag{
			text("from", "the `day` you leave, 2026-05-07, or a time, 2026-05-07T08:00"),
			text("until", "the `day` you are back"),
			text("note", "anything worth remembering"),
		},
		fact: func(in *said) (model.Fact, error) {
			if in.text("from") == "" || in.text("until") == "" {
				return nil, errors.New("enter trip: give --from and --until")
			}
			leaving, err := dayOrTime(in.text("from"), in.now.Location())
			if err != nil {
				return nil, fmt.Errorf("--from: %w", err)
			}
			back, err := dayOrTime(in.text("until"), in.now.Location())
			if err != nil {
				return nil, fmt.Errorf("--until: %w", err)
			}
			return &model.Trip{From: leaving.UTC(), Until: back.UTC(), Note: in.text("note")}, nil
		},
		on: noPlants,
	},
	{
		word: "back", words: noWords,
		short:    "home again from the trip",
		examples: [2]string{"back", "back --now 2026-05-19T18:00:00+02:00"},
		fact:     func(*said) (model.Fact, error) { return &model.Back{}, nil },
	},
	{
		word: "reading", takes: "--temp 21 --rh 35", words: noWords,
		short:    "what the thermometer and the hygrometer say",
		examples: [2]string{"reading --temp 21 --rh 35", "reading --temp 70F --rh 35 --fan low"},
		flags: []flag{
			amount("temp", "temperature in °C, or 70F", celsius),
			amount("rh", "relative humidity in %", "%"),
			text("fan", "`off`, low, on or near, if it changed"),
		},
		fact: func(in *said) (model.Fact, error) {
			if !in.given("temp") || !in.given("rh") {
				return nil, errors.New("enter reading: give --temp and --rh")
			}
			fan, err := readFan(in.text("fan"))
			return &model.Reading{TempC: in.amount("temp"), RH: in.amount("rh"), Fan: fan}, err
		},
	},
	{
		word: "outside", takes: "--temp -5 --rh 80", words: noWords,
		short:    "what the air is outdoors: for a day, what an open window lets in",
		examples: [2]string{"outside --temp -5 --rh 80", "outside --temp 70F --rh 60"},
		flags: []flag{
			amount("temp", "temperature in °C, or 70F", celsius),
			amount("rh", "relative humidity in %", "%"),
		},
		fact: func(in *said) (model.Fact, error) {
			if !in.given("temp") || !in.given("rh") {
				return nil, errors.New("enter outside: give --temp and --rh")
			}
			return &model.Outside{TempC: in.amount("temp"), RH: in.amount("rh")}, nil
		},
		on: noPlants,
	},
	{
		word: "fan", takes: "off|low|on|near", words: arity{1, 1, "say off, low, on or near"},
		short: "how the fan is set: off, low across the room, on at 2 m, near at 1 m",
		long: `How the fan is set: off, low across the room, on at 2 m, near at 1 m. Keep a
fan, its cord and its plug where no water can reach them, and out of reach of
wet hands; follow your local electrical code.`,
		examples: [2]string{"fan on", "fan off"},
		fact: func(in *said) (model.Fact, error) {
			fan, err := readFan(in.words[0])
			return &model.FanSet{Fan: fan}, err
		},
		on: noPlants,
	},
	{
		word: "window", takes: "shut|door|open|extractor", words: arity{1, 1, "say shut, door, open or extractor"},
		short:    "how the room with the drying plants is aired",
		examples: [2]string{"window open", "window shut"},
		fact: func(in *said) (model.Fact, error) {
			w, err := model.ParseWindow(strings.ToLower(strings.TrimSpace(in.words[0])))
			return &model.WindowSet{Window: w}, err
		},
		on: noPlants,
	},
	{
		word: "shelf", takes: "NAME FACTOR", words: arity{2, many, "name the shelf and its factor"},
		short: "how much faster plants dry out on a shelf than elsewhere: 1.4 over a radiator",
		long: `How much faster plants dry out on a shelf than elsewhere: 1.4 over a radiator,
0.8 in a damp corner, 1 as anywhere. It holds for the shelf's past too.`,
		examples: [2]string{"shelf sill 1.4", "shelf A 0.8"},
		fact: func(in *said) (model.Fact, error) {
			last := len(in.words) - 1
			factor, err := strconv.ParseFloat(in.words[last], 64)
			if err != nil {
				return nil, &model.Problem{
					What: strconv.Quote(in.words[last]) + " is not a factor", Do: "write 1.4 for 1.4 times as fast",
				}
			}
			return &model.ShelfSet{Name: strings.Join(in.words[:last], " "), Factor: factor}, nil
		},
		on: noPlants,
	},
}

// readFan reads a fan setting; none is none.
func readFan(word string) (model.Fan, error) {
	if word == "" {
		return "", nil
	}
	return model.ParseFan(strings.ToLower(strings.TrimSpace(word)))
}
