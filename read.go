package lapspan

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"example.com/lapspan/opening"
)

// The bounds of a document.
const (
	MaxDocument = 1 << 20 // bytes
	MaxNesting  = 32      // levels of objects and arrays
	MaxKeys     = 100     // keys of one object
)

// ReadJob reads a job from its JSON document and validates it. See Decode for
// what is refused; the error is an *opening.InputError, or that of the reader.
func ReadJob(r io.Reader) (Job, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxDocument+1))
	if err != nil {
		return Job{}, err
	}
	var job Job
	if err := Decode(data, &job); err != nil {
		return Job{}, err
	}
	if err := job.Validate(); err != nil {
		return Job{}, err
	}
	return job, nil
}

// Decode reads one strict JSON document into the struct that v points to, whose
// fields all carry json tags. A field tagged omitzero or omitempty is optional,
// every other is required unless it is a slice. Refused, each with its place, as an
// *opening.InputError:
//
//   - what is not JSON, text after the document, more than MaxDocument bytes or MaxNesting levels
//   - unknown keys (keys match exactly), repeated keys, missing keys, null
//   - the wrong type, a number with an exponent, a count that is not whole
//   - an optional size, count or word given as 0 or "": it is left out, or it says something
//   - whatever the UnmarshalJSON of a value refuses
//
// v is left as it is when the document is refused.
func Decode(data []byte, v any) error {
	target := reflect.ValueOf(v)
	if target.Kind() != reflect.Pointer || target.IsNil() || target.Elem().Kind() != reflect.Struct {
		return fmt.Errorf("lapspan: cannot decode into %T", v)
	}
	if len(data) > MaxDocument {
		return opening.Refuse("document", "more than %d bytes", MaxDocument)
	}
	if err := json.Unmarshal(data, new(json.RawMessage)); err != nil {
		return opening.Refuse(position(data, err), "not JSON: %v", err)
	}
	tokens := json.NewDecoder(bytes.NewReader(data))
	tokens.UseNumber()
	root, err := parse(tokens, "", 0)
	if err != nil {
		return err
	}
	fresh := reflect.New(target.Elem().Type()).Elem()
	if err := root.into(fresh); err != nil {
		return err
	}
	target.Elem().Set(fresh)
	return nil
}

// position says where in the text a syntax error lies.
func position(data []byte, err error) string {
	var syntax *json.SyntaxError
	if !errors.As(err, &syntax) || syntax.Offset > int64(len(data)) {
		return "document"
	}
	before := data[:max(syntax.Offset-1, 0)]
	line := bytes.Count(before, []byte{'\n'}) + 1
	return fmt.Sprintf("line %d, column %d", line, len(before)-bytes.LastIndexByte(before, '\n'))
}

// node is a value of the document with its place.
type node struct {
	place  string
	value  any // json.Delim, string, json.Number or bool
	keys   []string
	values []node
}

func (n node) refuse(reason string, args ...any) error {
	place := n.place
	if place == "" {
		place = "document"
	}
	return opening.Refuse(place, reason, args...)
}

// parse reads the next value and what is inside it, at most MaxNesting deep.
func parse(tokens *json.Decoder, place string, depth int) (node, error) {
	token, err := tokens.Token()
	n := node{place: place, value: token}
	if err != nil {
		return n, n.refuse("not JSON: %v", err)
	}
	switch t := token.(type) {
	case nil:
		return n, n.refuse("null says nothing: leave the key out")
	case json.Number:
		if strings.ContainsAny(t.String(), "eE") {
			return n, n.refuse("%.40s: write the number without an exponent", t)
		}
		return n, nil
	case json.Delim:
		if depth == MaxNesting {
			return n, n.refuse("nested more than %d levels deep", MaxNesting)
		}
		for tokens.More() {
			within := fmt.Sprintf("%s[%d]", place, len(n.values))
			if t == '{' {
				token, err := tokens.Token()
				if err != nil {
					return n, n.refuse("not JSON: %v", err)
				}
				key := fmt.Sprint(token)
				within = join(place, key)
				if slices.Contains(n.keys, key) {
					return n, opening.Refuse(within, "the key is repeated")
				}
				if len(n.keys) == MaxKeys {
					return n, n.refuse("more than %d keys", MaxKeys)
				}
				n.keys = append(n.keys, key)
			}
			value, err := parse(tokens, within, depth+1)
			if err != nil {
				return n, err
			}
			n.values = append(n.values, value)
		}
		if _, err := tokens.Token(); err != nil {
			return n, n.refuse("not JSON: %v", err)
		}
	}
	return n, nil
}

// join adds a key to a place; a key that would not read as one is quoted.
func join(place, key string) string {
	plain := func(r rune) bool {
		return r == '_' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
	}
	if key == "" || len(key) > 40 || strings.ContainsFunc(key, func(r rune) bool { return !plain(r) }) {
		key = opening.Quote(key)
	}
	if place == "" {
		return key
	}
	return place + "." + key
}

// into stores the node in v.
func (n node) into(v reflect.Value) error {
	if v.Kind() == reflect.Pointer {
		fresh := reflect.New(v.Type().Elem())
		if err := n.into(fresh.Elem()); err != nil {
			return err
		}
		v.Set(fresh)
		return nil
	}
	if u, ok := v.Addr().Interface().(json.Unmarshaler); ok {
		return n.unmarshal(u)
	}
	switch v.Kind() {
	case reflect.Struct:
		return n.object(v)
	case reflect.Slice:
		return n.list(v)
	case reflect.String:
		text, ok := n.value.(string)
		if !ok {
			return n.refuse("it must be a text, not %s", n.kind())
		}
		v.SetString(text)
	case reflect.Bool:
		yes, ok := n.value.(bool)
		if !ok {
			return n.refuse("it must be true or false, not %s", n.kind())
		}
		v.SetBool(yes)
	case reflect.Int:
		number, ok := n.value.(json.Number)
		if !ok {
			return n.refuse("it must be a whole number, not %s", n.kind())
		}
		whole, err := strconv.ParseInt(number.String(), 10, 32)
		if err != nil {
			return n.refuse("%.40s is not a whole number in range", number)
		}
		v.SetInt(whole)
	default:
		return fmt.Errorf("lapspan: %s: cannot decode into %s", n.place, v.Type())
	}
	return nil
}

func (n node) unmarshal(u json.Unmarshaler) error {
	var text []byte
	switch value := n.value.(type) {
	case json.Number:
		text = []byte(value)
	case string:
		quoted, err := json.Marshal(value)
		if err != nil {
			return n.refuse("%v", err)
		}
		text = quoted
	default:
		return n.refuse("it must be a number or a text, not %s", n.kind())
	}
	if err := u.UnmarshalJSON(text); err != nil {
		return n.refuse("%v", err)
	}
	return nil
}

// kind names the type of the node for a person.
func (n node) kind() string {
	switch value := n.value.(type) {
	case json.Delim:
		if value == '[' {
			return "a list"
		}
		return "an object"
	case string:
		return "a text"
	case bool:
		return "true or false"
	}
	return "a number"
}

func (n node) list(v reflect.Value) error {
	if n.value != json.Delim('[') {
		return n.refuse("it must be a list, not %s", n.kind())
	}
	items := reflect.MakeSlice(v.Type(), len(n.values), len(n.values))
	for i, value := range n.values {
		if err := value.into(items.Index(i)); err != nil {
			return err
		}
	}
	v.Set(items)
	return nil
}

func (n node) object(v reflect.Value) error {
	if n.value != json.Delim('{') {
		return n.refuse("it must be an object, not %s", n.kind())
	}
	known := 0
	for i := range v.NumField() {
		field := v.Type().Field(i)
		key, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		optional := options == "omitzero" || options == "omitempty"
		at := slices.Index(n.keys, key)
		if at < 0 {
			if !optional && field.Type.Kind() != reflect.Slice {
				return opening.Refuse(join(n.place, key), "it is missing")
			}
			continue
		}
		known++
		value := n.values[at]
		if err := value.into(v.Field(i)); err != nil {
			return err
		}
		if optional && v.Field(i).IsZero() && saysNothing(field.Type) {
			return value.refuse("%v says nothing: leave the key out for the default", value.value)
		}
	}
	if known == len(n.keys) {
		return nil
	}
	for i, key := range n.keys {
		if !hasKey(v.Type(), key) {
			return n.values[i].refuse("unknown key")
		}
	}
	return nil
}

func hasKey(t reflect.Type, key string) bool {
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == key {
			return true
		}
	}
	return false
}

// saysNothing reports whether the zero of an optional field of the type stands
// for a default, so that it must not be written out. Plain texts and booleans
// may be; what may be zero in its own right is a pointer.
func saysNothing(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Int, reflect.Int64:
		return true
	case reflect.String:
		return t != reflect.TypeFor[string]()
	}
	return false
}
