package design

import (
	"os"
	"testing"
)

func TestStarterAndDemoRead(t *testing.T) {
	demo, err := os.ReadFile("../../testdata/millrace.toml")
	if err != nil {
		t.Fatal(err)
	}
	for name, src := range map[string][]byte{"starter.toml": Starter(), "millrace.toml": demo} {
		if _, err := Parse(name, src); err != nil {
			t.Error(err)
		}
	}
}
