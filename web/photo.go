package web

import (
	"bytes"
	"fmt"
	"io"

	"asfound/observation"
)

// addPhoto records a photograph of a thing. The picture itself was stored
// before the request came here; what its first bytes say goes before what the
// sender says it is.
func addPhoto(v *visit) error {
	f := v.typed()
	thing := v.arg("thing")
	files := v.ask.Files["photo"]
	if len(files) == 0 {
		f.fault("photo", sayPhoto)
	} else {
		kind := v.pictureType(files[0])
		_, _ = v.record(f, observation.Observation{Subject: thing, Body: observation.Photo{Hash: files[0].Hash, Type: kind,
			Bytes: files[0].Bytes, Caption: f.Get("caption")}}, map[string]string{"hash": "photo"})
	}
	if f.Bad() {
		return v.photoAgain(f, thing)
	}
	return v.goTo(v.thingHref(thing))
}

// photoAgain shows the page the form stood on once more.
func (v *visit) photoAgain(f *form, thing observation.Thing) error {
	v.args = map[string]string{"opening": string(thing), "room": string(thing), "panel": string(thing)}
	switch {
	case v.found.Opening(thing) != nil:
		return openingWith(v, f)
	case v.found.Room(thing) != nil:
		return roomWith(v, f)
	case v.found.Panel(thing) != nil:
		return panelWith(v, f)
	}
	return notFound{sayNoThing}
}

// pictureType tells a picture by its first bytes: the JPEG marker SOI (ITU-T
// T.81), the PNG signature (RFC 2083).
func (v *visit) pictureType(file File) string {
	if v.job.Photos == nil {
		return file.Type
	}
	body, err := v.job.Photos.Blob(file.Hash)
	if err != nil {
		return file.Type
	}
	defer body.Close()
	head := make([]byte, 8)
	n, _ := io.ReadFull(body, head)
	switch head = head[:n]; {
	case bytes.HasPrefix(head, []byte{0xff, 0xd8, 0xff}):
		return "image/jpeg"
	case bytes.HasPrefix(head, []byte("\x89PNG\r\n\x1a\n")):
		return "image/png"
	}
	return "not a picture"
}

// showPhoto hands out a photograph.
func showPhoto(v *visit) error {
	if v.job.Photos == nil {
		return notFound{sayNoPhoto}
	}
	body, err := v.job.Photos.Blob(v.args["hash"])
	if err != nil {
		return notFound{sayNoPhoto}
	}
	defer body.Close()
	data, err := io.ReadAll(body)
	if err != nil {
		return fmt.Errorf("read photograph: %w", err)
	}
	kind := v.pictureType(File{Hash: v.args["hash"]})
	if kind == "not a picture" {
		return notFound{sayNoPhoto}
	}
	v.out = Response{Status: statusOK, Type: kind, Body: data, Lasting: true}
	return nil
}
