package report

import (
	"fmt"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// A photograph is printed 88 mm wide or 84 mm tall, two beside each other and two
// above. At 150 dots an inch that is 520 pixels: enough to read a label that fills
// a quarter of the picture (by eye).
const (
	pictureWide   = 88.0
	pictureTall   = 84.0
	pictureGap    = 9.9
	PicturePixels = 520 // of the longer side
)

var captionStyle = paper.Style{Size: 8.5}

// photosOf lists the photographs that count, in the order of clocks.
func photosOf(a *site.AsFound) []installation.Entry {
	var out []installation.Entry
	for _, e := range a.Entries() {
		if _, ok := e.Body.(observation.Photo); ok && e.Live() {
			out = append(out, e)
		}
	}
	return out
}

// takeOverPhotos prints the photographs with what they show, when, by whom, and
// the hash under which the file is kept: another file has another hash.
func takeOverPhotos(s *paper.Sheet, a *site.AsFound, k Kind) {
	s.Heading("Photographs")
	photos := photosOf(a)
	if len(photos) == 0 {
		s.Paragraph("No photograph was on record by then.")
		return
	}
	s.Paragraph(fmt.Sprintf("%s. The letters and figures under each are the SHA-256 of the file, shortened: they show that a file is the one recorded.", counted(len(photos), "photograph")))
	for i := 0; i < len(photos); i += 2 {
		var lines [2][]string
		most := 0
		for j, e := range photos[i:min(i+2, len(photos))] {
			lines[j] = caption(a, e)
			most = max(most, len(lines[j]))
		}
		p, area := s.Room(pictureTall + 3 + float64(most)*captionStyle.Leading() + 4)
		for j, e := range photos[i:min(i+2, len(photos))] {
			at := paper.Area{X: area.X + float64(j)*(pictureWide+pictureGap), Y: area.Y, W: pictureWide, H: pictureTall}
			printPhoto(p, at, e, k.beside.Photos)
			y := at.Y + at.H + 3 + 0.8*captionStyle.MM()
			for _, line := range lines[j] {
				p.Text(at.X, y, line, captionStyle)
				y += captionStyle.Leading()
			}
		}
	}
	s.Space(3)
}

// printPhoto prints a photograph in a frame, or says why it is not here.
func printPhoto(p *paper.Page, at paper.Area, e installation.Entry, photos Photos) {
	b := e.Body.(observation.Photo)
	picture := paper.Picture{Area: at, Name: b.Caption, Else: "This photograph cannot be read on this device."}
	switch {
	case photos == nil || !photos.Here(b.Hash):
		picture.Else = "Not on this device: it is on the phone or laptop of " + e.Who + "."
	case photos.TooLarge(b.Hash):
		picture.Else = sayTooLarge
	default:
		picture.JPEG = func() []byte { return photos.JPEG(b.Hash, PicturePixels) }
		p.Picture(picture)
		return
	}
	p.Rect(at, paper.Hair, paper.NoInk)
	p.Add(picture.Instead())
}

const sayTooLarge = "Left out: this picture has too many pixels to be read for paper. It is kept in full and opens on a screen."

// caption is what stands beneath a photograph, in no more than four lines.
func caption(a *site.AsFound, e installation.Entry) []string {
	const most = 2
	b := e.Body.(observation.Photo)
	says := b.Caption
	if says == "" {
		says = "No caption"
	}
	where := a.Name(e.Subject)
	if o := a.Opening(e.Subject); o != nil {
		where = o.Number + ", " + a.Name(o.Room)
	} else if a.Panel(e.Subject) != nil {
		where = "Panel " + where
	}
	out := captionStyle.Wrap(where+": "+says, pictureWide)
	if len(out) > most {
		out = append(out[:most-1:most-1], captionStyle.Fit(strings.Join(out[most-1:], " "), pictureWide))
	}
	out = append(out, captionStyle.Fit(e.Who+", "+e.When().In(zone(a)).Format("Jan 2, 2006, 15:04"), pictureWide))
	return append(out, "SHA-256 "+b.Hash[:16])
}
