package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"
)

// tab is a headless Chromium with one page, driven over a pair of pipes by its
// DevTools protocol: JSON texts, each ended by a zero byte.
type tab struct {
	t       *testing.T
	in      *os.File
	replies chan message
	last    int
	session string
	Logged  []string // errors and warnings of the page
}

type message struct {
	ID        int                       `json:"id,omitempty"`
	Method    string                    `json:"method,omitempty"`
	SessionID string                    `json:"sessionId,omitempty"`
	Params    any                       `json:"params,omitempty"`
	Result    json.RawMessage           `json:"result,omitempty"`
	Error     *struct{ Message string } `json:"error,omitempty"`
	event     json.RawMessage
}

// open starts the browser, or skips the test where there is none.
func open(t *testing.T) *tab {
	t.Helper()
	var name string
	for _, n := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(n); err == nil {
			name = p
			break
		}
	}
	if name == "" {
		t.Skip("no Chromium on this machine: the page is not tested in a browser")
	}
	theirIn, in, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	out, theirOut, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(name, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
		"--remote-debugging-pipe", "--user-data-dir="+t.TempDir(), "about:blank")
	cmd.ExtraFiles = []*os.File{theirIn, theirOut}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	theirIn.Close()
	theirOut.Close()
	b := &tab{t: t, in: in, replies: make(chan message, 1000)}
	go b.listen(out)
	t.Cleanup(func() {
		b.session = ""
		b.send("Browser.close", nil)
		done := make(chan error, 1)
		go func() { done <- cmd.Wait() }()
		select {
		case <-done:
		case <-time.After(10 * time.Second):
			cmd.Process.Kill()
			<-done
		}
		in.Close()
		out.Close()
	})
	var target struct{ TargetID string }
	b.call(&target, "Target.createTarget", map[string]any{"url": "about:blank"})
	var attached struct{ SessionID string }
	b.call(&attached, "Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true})
	b.session = attached.SessionID
	for _, m := range []string{"Runtime.enable", "Log.enable", "Page.enable"} {
		b.call(nil, m, nil)
	}
	return b
}

func (b *tab) listen(out *os.File) {
	defer close(b.replies)
	r := bufio.NewReader(out)
	for {
		text, err := r.ReadBytes(0)
		if err != nil {
			return
		}
		var m struct {
			message
			Params json.RawMessage `json:"params"`
		}
		if json.Unmarshal(text[:len(text)-1], &m) != nil {
			continue
		}
		m.message.event = m.Params
		b.replies <- m.message
	}
}

func (b *tab) send(method string, params any) {
	b.last++
	text, err := json.Marshal(message{ID: b.last, Method: method, Params: params, SessionID: b.session})
	if err != nil {
		b.t.Fatal(err)
	}
	if _, err := b.in.Write(append(text, 0)); err != nil && !errors.Is(err, os.ErrClosed) {
		b.t.Error(err)
	}
}

// call waits for the answer; what the page logs meanwhile is kept.
func (b *tab) call(result any, method string, params any) {
	b.t.Helper()
	b.send(method, params)
	limit := time.After(60 * time.Second)
	for {
		select {
		case m, ok := <-b.replies:
			switch {
			case !ok:
				b.t.Fatalf("%s: the browser is gone", method)
			case m.Method == "Runtime.exceptionThrown" || m.Method == "Log.entryAdded" || m.Method == "Runtime.consoleAPICalled":
				b.Logged = append(b.Logged, string(m.event))
			case m.ID != b.last:
			case m.Error != nil:
				b.t.Fatalf("%s: %s", method, m.Error.Message)
			case result == nil:
				return
			default:
				if err := json.Unmarshal(m.Result, result); err != nil {
					b.t.Fatalf("%s: %v", method, err)
				}
				return
			}
		case <-limit:
			b.t.Fatalf("%s: no answer", method)
		}
	}
}

// eval runs a script in the page and reads its value.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	var got struct {
		Result struct {
			Value T
		}
		ExceptionDetails json.RawMessage
	}
	b.call(&got, "Runtime.evaluate", map[string]any{"expression": script, "returnByValue": true, "awaitPromise": true})
	if got.ExceptionDetails != nil {
		b.t.Fatalf("%s: %s", script, got.ExceptionDetails)
	}
	return got.Result.Value
}

// wait until a condition holds in the page.
func (b *tab) wait(condition string) {
	b.t.Helper()
	for begin := time.Now(); time.Since(begin) < 60*time.Second; time.Sleep(20 * time.Millisecond) {
		if eval[bool](b, condition) {
			return
		}
	}
	b.t.Fatalf("never: %s", condition)
}

// press a key and let the page draw.
func (b *tab) press(key string) {
	b.t.Helper()
	for _, kind := range []string{"keyDown", "keyUp"} {
		codes := map[string]int{"ArrowRight": 39, "ArrowLeft": 37, "End": 35, "Home": 36, "Tab": 9}
		b.call(nil, "Input.dispatchKeyEvent", map[string]any{"type": kind, "key": key, "code": key, "windowsVirtualKeyCode": codes[key]})
	}
	eval[bool](b, "new Promise(r => requestAnimationFrame(() => requestAnimationFrame(() => r(true))))")
}

// size sets the window and the colours.
func (b *tab) size(wide, high int, phone bool, scheme string) {
	b.t.Helper()
	scale := 1
	if phone {
		scale = 2
	}
	b.call(nil, "Emulation.setDeviceMetricsOverride", map[string]any{"width": wide, "height": high, "deviceScaleFactor": scale, "mobile": phone})
	b.call(nil, "Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}})
}

func (b *tab) String() string { return fmt.Sprint(len(b.Logged), " messages: ", b.Logged) }
