package observation

import "strconv"

// Photo is a photograph of the subject, kept beside the journal under its hash.
type Photo struct {
	Hash    string `json:"hash"` // SHA-256 of the file, 64 hexadecimal figures
	Type    string `json:"type"` // image/jpeg or image/png
	Bytes   int64  `json:"bytes"`
	Caption string `json:"caption,omitempty"`
}

// Kind is "photo.1".
func (Photo) Kind() string { return "photo.1" }

// Check wants a hash, a known picture type and a size.
func (p Photo) Check() error {
	if len(p.Hash) != 64 || !isHex(p.Hash) {
		return unusable("photo", p.Hash, "This photograph did not arrive whole. Add it again.")
	}
	if p.Type != "image/jpeg" && p.Type != "image/png" {
		return unusable("photo", p.Type, "Add a JPEG or PNG picture.")
	}
	if p.Bytes <= 0 {
		return unusable("photo", strconv.FormatInt(p.Bytes, 10), "This picture is empty. Add it again.")
	}
	return checkText("caption", p.Caption)
}

func isHex(s string) bool {
	for i := range len(s) {
		if c := s[i]; (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}
