package plot

import "tubside/ui/show"

// Sizes of the curve, in units of the SVG.
const (
	curveHeight = 260.0
	curveTop    = 12.0
	curveLeft   = 56.0
	curveRight  = svgWidth - 16
)

// frame turns days and shares into units of the SVG.
type frame struct{ end, foot float64 }

func (f frame) x(v float64) float64 { return curveLeft + (curveRight-curveLeft)*v/f.end }
func (f frame) y(share float64) float64 {
	return curveTop + curveHeight*(1-share)/(1-f.foot)
}

func (c Curve) svg() string {
	f := frame{c.End, c.foot()}
	d := begin(c.About, curveTop+curveHeight+54)
	for i := range 6 {
		share := f.foot + (1-f.foot)*float64(i)/5
		d.line(curveLeft, f.y(share), curveRight, f.y(share))
		d.text(curveLeft-6, f.y(share)+4, atEnd, show.Percent(share))
	}
	upper, lower, middle := c.outline(f)
	d.path(`fill-opacity="0.18" stroke="none"`, append(upper, backwards(lower)...), true)
	d.path(`fill="none" stroke="currentColor" stroke-width="2"`, middle, false)
	foot := curveTop + curveHeight
	for _, t := range c.Ticks {
		d.line(f.x(t.X), foot, f.x(t.X), foot+4)
		d.text(f.x(t.X), foot+17, atMiddle, t.Name)
		d.text(f.x(t.X), foot+33, atMiddle, t.Count)
	}
	d.text((curveLeft+curveRight)/2, foot+49, atMiddle, c.Below)
	return d.end()
}

// outline is the stairs of the band's ends and of the curve, as x, y pairs.
func (c Curve) outline(f frame) (upper, lower, middle []float64) {
	was := Step{Y: 1, Low: 1, High: 1}
	add := func(x float64, s Step) {
		upper = append(upper, f.x(x), f.y(s.High))
		lower = append(lower, f.x(x), f.y(s.Low))
		middle = append(middle, f.x(x), f.y(s.Y))
	}
	add(0, was)
	for _, s := range c.Steps {
		if s.X > c.End {
			break
		}
		add(s.X, was)
		add(s.X, s)
		was = s
	}
	add(c.End, was)
	return upper, lower, middle
}

// backwards turns a row of x, y pairs round.
func backwards(points []float64) []float64 {
	turned := make([]float64, 0, len(points))
	for i := len(points) - 2; i >= 0; i -= 2 {
		turned = append(turned, points[i], points[i+1])
	}
	return turned
}
