package journal

import (
	"crypto/sha256"
	"errors"
	"hash"
	"io"
)

// ErrWrongBlob says that a photograph is not the one its hash names.
var ErrWrongBlob = errors.New("this photograph did not arrive whole: send it again")

// Verified gives the bytes of r, and in the place of their end ErrWrongBlob when
// their SHA-256 is not want, so that PutBlob keeps no wrong photograph.
func Verified(r io.Reader, want string) io.Reader {
	return &verified{from: r, want: want, sum: sha256.New()}
}

type verified struct {
	from io.Reader
	want string
	sum  hash.Hash
}

func (v *verified) Read(p []byte) (int, error) {
	n, err := v.from.Read(p)
	v.sum.Write(p[:n])
	if errors.Is(err, io.EOF) && Hash(v.sum.Sum(nil)).String() != v.want {
		return n, ErrWrongBlob
	}
	return n, err
}

// IsBlobName reports whether name can be the hash of a photograph: 64 lower-case
// hexadecimal figures. A store asks before it makes a file name of one.
func IsBlobName(name string) bool {
	_, ok := parseHash(name)
	return ok
}
