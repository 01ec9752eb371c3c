"""One conversation with a kernel, as a front end leads it. Arguments: the kernel's name, its working folder; on standard
input a JSON list of steps, on standard output a JSON object with what came back for each of them. The number of the
kernel's process is said at once, on standard error."""
import json
import os
import queue
import signal
import subprocess
import sys
import threading
import time

from jupyter_client.manager import KernelManager


def collect(client, message_id, timeout):
    """The reply to a request and everything published for it, until the kernel is idle again."""
    published = []
    while True:
        message = client.get_iopub_msg(timeout=timeout)
        if message["parent_header"].get("msg_id") != message_id:
            continue
        kind, content = message["msg_type"], message["content"]
        if kind == "status" and content["execution_state"] == "idle":
            break
        if kind not in ("status", "execute_input"):
            published.append({"type": kind, **content})
    while True:
        reply = client.get_shell_msg(timeout=timeout)
        if reply["parent_header"].get("msg_id") == message_id:
            return reply["content"], published


def ask(manager, client, step):
    kind = step["ask"]
    if kind == "complete":
        message_id = client.complete(step["code"], len(step["code"]))
    elif kind == "inspect":
        message_id = client.inspect(step["code"], len(step["code"]))
    else:
        content = {"code": step["code"], "silent": False, "store_history": True, "user_expressions": {}, "allow_stdin": False, "stop_on_error": True}
        metadata = {"cellId": step["cellId"]} if "cellId" in step else {}
        message = client.session.msg("execute_request", content, metadata=metadata)
        client.shell_channel.send(message)
        message_id = message["header"]["msg_id"]
    if "interruptAfter" in step:
        # As Jupyter's own button does; its function is not made for a second thread.
        pid = manager.provisioner.process.pid
        threading.Timer(step["interruptAfter"], lambda: os.killpg(pid, signal.SIGINT)).start()
    begun = time.monotonic()
    try:
        reply, published = collect(client, message_id, 60)
    except queue.Empty:
        return {"reply": None, "published": [], "seconds": time.monotonic() - begun}
    seconds = time.monotonic() - begun
    if reply["status"] == "error":
        # Requests that are already on their way are aborted with the one that failed, for 0.2 s.
        time.sleep(0.4)
    return {"reply": reply, "published": published, "seconds": seconds}


def main(name, folder):
    manager = KernelManager(kernel_name=name)
    begun = time.monotonic()
    manager.start_kernel(cwd=folder)
    pid = manager.provisioner.process.pid
    print(pid, file=sys.stderr, flush=True)
    client = manager.client()
    client.start_channels()
    client.wait_for_ready(timeout=60)
    up = time.monotonic() - begun
    answers = []
    try:
        for step in json.load(sys.stdin):
            answers.append(ask(manager, client, step))
    finally:
        client.stop_channels()
        manager.request_shutdown()
        try:
            ended = manager.provisioner.process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            ended = None
        manager.shutdown_kernel(now=True)
    json.dump({"pid": pid, "up": up, "answers": answers, "ended": ended}, sys.stdout)


main(*sys.argv[1:])
