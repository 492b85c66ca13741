package care

import (
	"time"

	"tubside/model"
	"tubside/model/air"
)

// logBlock is how long a logger's readings are joined for before they count in
// what plants lose. Our own: short beside the two days in which a fresh plant's
// loss settles, so that the thirst is right to a hundredth of itself in a room
// that swings by 8 °C and 30 % from day to night; and a year of hourly readings
// costs a start no more than four a day.
const logBlock = 6 * time.Hour

// readLogs takes in what loggers wrote down, before anything else: it is told
// long after it was so, and changes how the past reads.
func (k *Keeper) readLogs() {
	for _, e := range k.book.Entries() {
		f, ok := e.Fact.(*model.Readings)
		if !ok || k.book.Struck(e.Seq) {
			continue
		}
		for _, r := range joined(f) {
			k.climate.add(r)
		}
	}
}

// joined is the mean of each block of readings, at the mean of their times. The
// humidity is the one that makes their mean deficit at their mean temperature.
func joined(f *model.Readings) []model.ReadingAt {
	var blocks []model.ReadingAt
	for from := 0; from < f.Len(); {
		block := f.At(from).At.Unix() / int64(logBlock/time.Second)
		var seconds, temp, deficit, n float64
		for ; from < f.Len(); from++ {
			r := f.At(from)
			if r.At.Unix()/int64(logBlock/time.Second) != block {
				break
			}
			seconds += float64(r.At.Unix() % int64(logBlock/time.Second))
			temp += r.TempC
			deficit += deficitKPa(r.TempC, r.RH)
			n++
		}
		at := time.Unix(block*int64(logBlock/time.Second)+int64(seconds/n), 0)
		blocks = append(blocks, model.ReadingAt{At: at, TempC: temp / n, RH: humidityFor(deficit/n, temp/n)})
	}
	return blocks
}

// humidityFor is the relative humidity, in %, that makes a deficit in kPa at a
// temperature.
func humidityFor(deficit, tempC float64) float64 {
	return 100 * (1 - min(1000*deficit/air.Saturation(tempC), 1))
}
